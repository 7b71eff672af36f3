"""Piecewright: quilt patterns written as plain text, worked out exactly."""
