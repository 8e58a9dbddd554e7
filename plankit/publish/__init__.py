"""The publisher: notebooks run, pages, PDFs and sites made from the plans they hold."""
