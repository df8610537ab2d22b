"""The printed page: one painting function for preview, print and PDF; QtGui only."""
