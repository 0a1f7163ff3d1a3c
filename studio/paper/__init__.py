"""What every printed page is made of: font, page, pen, drawing, code and blocks. Pure: no framework, no database."""
