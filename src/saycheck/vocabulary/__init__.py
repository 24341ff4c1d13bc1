"""The words of the trade: what parts are called, what is looked for, what people say of them."""
