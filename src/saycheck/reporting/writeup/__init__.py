"""The write-up for the owner: a document made from a walk as it stands, and set as PDF, HTML or CSV."""
