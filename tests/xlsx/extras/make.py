"""Writes invented workbooks with what stands beside cells, by the libraries that others use.

    python3 make.py openpyxl-notes FILE      python3 make.py xlsxwriter-notes FILE
"""
import sys


def openpyxl_notes(path: str) -> None:
    import openpyxl
    from openpyxl.comments import Comment
    book = openpyxl.Workbook()
    parts = book.active
    parts.title = 'Parts'
    for row in range(1, 9):
        parts.append([f'part {row}', row])
    parts['A3'].comment = Comment('two of each,\nleft & right <hand>', 'Ann')
    parts['B6'].comment = Comment('Ann:\ndrilled #40', 'Ann')
    book.create_sheet('Other')['C2'].comment = Comment('on the other sheet', '')
    book.save(path)


def xlsxwriter_notes(path: str) -> None:
    import xlsxwriter
    book = xlsxwriter.Workbook(path)
    parts = book.add_worksheet('Parts')
    parts.write('A3', 'cap')
    parts.write_comment('A3', 'two of each', {'author': 'Ben'})
    parts.write_comment('D20', 'on an empty cell')
    book.close()


MAKERS = {'openpyxl-notes': openpyxl_notes, 'xlsxwriter-notes': xlsxwriter_notes}

if __name__ == '__main__':
    MAKERS[sys.argv[1]](sys.argv[2])
