"""From words to findings: what a walk says about this machine as it is now."""
