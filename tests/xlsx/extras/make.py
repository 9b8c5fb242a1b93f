"""Writes invented workbooks with what stands beside cells, by the libraries that others use.

    python3 make.py KIND FILE      kinds: MAKERS below
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


NUMBERS = [4, 12, 7, 7, -3, 0.5, 21, 9, 15, 1, 30, 2]
TEXTS = ['rib', 'Rib nose', 'spar', 'nose rib', 'SPAR', 'skin', 'cap', '', 'tab', 'web 2', 'Cap', 'strut']


def openpyxl_conditions(path: str) -> None:
    """A column a rule: numbers in A to P, texts in R to X, two columns with several rules."""
    import openpyxl
    from openpyxl.formatting.rule import CellIsRule, FormulaRule, Rule
    from openpyxl.styles import Font, PatternFill
    from openpyxl.styles.differential import DifferentialStyle
    from openpyxl.utils import get_column_letter
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = 'Parts'
    fill = PatternFill(bgColor='FFFFC7CE')
    red = DifferentialStyle(fill=fill)
    last = len(NUMBERS)

    def column(values, *rules):
        at = sheet.max_column + (0 if sheet.max_row == 1 and sheet['A1'].value is None else 1)
        letter = get_column_letter(at)
        for row, value in enumerate(values, 1):
            sheet.cell(row, at, value if value != '' else None)
        for rule in rules:
            rule = rule(f'{letter}1', f'${letter}$1:${letter}${last}') if callable(rule) else rule
            sheet.conditional_formatting.add(f'{letter}1:{letter}{last}', rule)

    for operator, formula in [('lessThan', ['7']), ('lessThanOrEqual', ['7']), ('equal', ['7']), ('notEqual', ['7']), ('greaterThanOrEqual', ['9']),
                              ('greaterThan', ['$A$2']), ('between', ['2', '9']), ('between', ['9', '2']), ('notBetween', ['2', '9'])]:
        column(NUMBERS, CellIsRule(operator=operator, formula=formula, fill=fill))
    column(NUMBERS, lambda cell, area: FormulaRule(formula=[f'AND({cell}>AVERAGE({area}),MOD(ROW(),2)=1)'], fill=fill))
    column(NUMBERS, Rule(type='top10', rank=3, dxf=red))
    column(NUMBERS, Rule(type='top10', rank=3, bottom=True, dxf=red))
    column(NUMBERS, Rule(type='top10', rank=25, percent=True, dxf=red))
    column(NUMBERS, Rule(type='aboveAverage', dxf=red))
    column(NUMBERS, Rule(type='aboveAverage', aboveAverage=False, dxf=red))
    column(NUMBERS, Rule(type='duplicateValues', dxf=red))
    column(NUMBERS, Rule(type='uniqueValues', dxf=red))
    text = lambda kind, formula, **more: (lambda cell, area: Rule(type=kind, formula=[formula.replace('?', cell)], dxf=red, **more))
    column(TEXTS, text('containsText', 'NOT(ISERROR(SEARCH("rib",?)))', operator='containsText', text='rib'))
    column(TEXTS, text('notContainsText', 'ISERROR(SEARCH("rib",?))', operator='notContains', text='rib'))
    column(TEXTS, text('beginsWith', 'LEFT(?,3)="rib"', operator='beginsWith', text='rib'))
    column(TEXTS, text('endsWith', 'RIGHT(?,3)="rib"', operator='endsWith', text='rib'))
    column(TEXTS, text('containsBlanks', 'LEN(TRIM(?))=0'))
    column(TEXTS, text('notContainsBlanks', 'LEN(TRIM(?))>0'))
    column(TEXTS, Rule(type='duplicateValues', dxf=red))
    column(['=1/0', 1, '=NA()', 'x'], text('containsErrors', 'ISERROR(?)'))
    # The second rule is looked at first, and ends it where it holds; the first gives what is left.
    green = PatternFill(bgColor='FFC6EFCE')
    first = CellIsRule(operator='greaterThan', formula=['5'], fill=fill, font=Font(bold=True))
    second = CellIsRule(operator='greaterThan', formula=['10'], fill=green, stopIfTrue=True)
    third = CellIsRule(operator='greaterThan', formula=['20'], fill=fill)
    first.priority, second.priority, third.priority = 902, 901, 903
    column(NUMBERS, second, first, third)
    book.save(path)


def xlsxwriter_conditions(path: str) -> None:
    """Scales of colours, bars, signs; names of other sheets; a rule over two ranges."""
    import xlsxwriter
    book = xlsxwriter.Workbook(path)
    sheet, limits = book.add_worksheet('Parts'), book.add_worksheet('Limits')
    look = book.add_format({'bg_color': '#FFEEDD', 'font_color': '#9C0006', 'bold': True})
    limits.write('A1', 10)
    for column in range(6):
        sheet.write_column(0, column, [0, 25, 50, 75, 100])
    sheet.conditional_format('A1:A5', {'type': '2_color_scale', 'min_color': '#FFFFFF', 'max_color': '#FF0000'})
    sheet.conditional_format('B1:B5', {'type': '3_color_scale', 'min_color': '#FF0000', 'mid_color': '#FFFF00', 'max_color': '#00FF00'})
    sheet.conditional_format('C1:C5', {'type': 'data_bar', 'bar_color': '#63C384'})
    sheet.conditional_format('D1:D5', {'type': 'data_bar', 'data_bar_2010': True, 'bar_color': '#63C384'})
    sheet.conditional_format('E1:E5', {'type': 'icon_set', 'icon_style': '3_arrows'})
    sheet.conditional_format('F1:F2', {'type': 'formula', 'criteria': '=F1>Limits!$A$1', 'format': look, 'multi_range': 'F1:F2 F4:F5'})
    sheet.write_column('G1', [-50, -25, 0, 50, 'text'])
    sheet.conditional_format('G1:G5', {'type': 'data_bar', 'data_bar_2010': True, 'bar_color': '#63C384'})
    book.close()


def openpyxl_links(path: str) -> None:
    import openpyxl
    from openpyxl.styles import Font
    from openpyxl.workbook.defined_name import DefinedName
    from openpyxl.worksheet.hyperlink import Hyperlink
    book = openpyxl.Workbook()
    parts = book.active
    parts.title = 'Parts'
    other = book.create_sheet('My list')
    other['B3'] = 'here'
    for row, text in enumerate(('page', 'mail', 'place', 'script', 'file', 'no sheet', 'named', 'formula', 'plain'), 1):
        parts.cell(row, 1, text)
    parts['A1'].hyperlink = 'https://example.org/a?b=1&c=2'
    parts['A2'].hyperlink = 'mailto:ann@example.org'
    parts['A3'].hyperlink = Hyperlink(ref='A3', location="'My list'!B3")
    parts['A4'].hyperlink = 'javascript:alert(1)'
    parts['A5'].hyperlink = 'plans/rib.pdf'
    parts['A6'].hyperlink = Hyperlink(ref='A6', location='Gone!B3')
    parts['A7'].hyperlink = Hyperlink(ref='A7', location='Here')
    parts['A8'] = '=HYPERLINK("https://example.org/"&LOWER("RIB"),"rib page")'
    parts['A8'].font = Font(color='FFAA0000')
    for cell in ('A1', 'A2', 'A3', 'A4', 'A5', 'A6', 'A7'):
        parts[cell].font = Font()
    names, here = book.defined_names, DefinedName('Here', attr_text="'My list'!$B$3")
    names.append(here) if hasattr(names, 'append') else names.add(here)
    book.save(path)


def xlsxwriter_links(path: str) -> None:
    import xlsxwriter
    book = xlsxwriter.Workbook(path)
    parts = book.add_worksheet('Parts')
    book.add_worksheet('Lists')
    parts.write_url('A1', 'https://example.org/x#part', string='out')
    parts.write_url('A2', 'internal:Lists!A5:B6', string='in')
    parts.write_url('A3', 'external:c:\\plans\\rib.xlsx', string='file')
    book.close()


def png(width: int, height: int) -> bytes:
    """A picture of one colour, #3366CC."""
    import struct
    import zlib

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack('>I', len(data)) + kind + data + struct.pack('>I', zlib.crc32(kind + data))
    rows = (b'\0' + b'\x33\x66\xcc' * width) * height
    return b'\x89PNG\r\n\x1a\n' + chunk(b'IHDR', struct.pack('>IIBBBBB', width, height, 8, 2, 0, 0, 0)) + chunk(b'IDAT', zlib.compress(rows)) + chunk(b'IEND', b'')


def xlsxwriter_drawings(path: str) -> None:
    import io
    import xlsxwriter
    book = xlsxwriter.Workbook(path)
    parts, other = book.add_worksheet('Parts'), book.add_worksheet('Other')
    for row in range(40):
        parts.write_row(row, 0, [f'part {row}', row])
    for cell, name in (('D2', 'Weight by part'), ('D20', None)):
        chart = book.add_chart({'type': 'column', **({'name': name} if name else {})})
        chart.add_series({'values': '=Parts!$B$1:$B$8'})
        chart.set_size({'width': 264, 'height': 192})
        parts.insert_chart(cell, chart)
    parts.insert_image('H4', 'rib.png', {'image_data': io.BytesIO(png(176, 48))})
    other.write('A1', 'nothing over it')
    book.close()


def openpyxl_drawings(path: str) -> None:
    import openpyxl
    from openpyxl.chart import BarChart, Reference
    book = openpyxl.Workbook()
    parts = book.active
    parts.title = 'Parts'
    for row in range(8):
        parts.append([f'part {row}', row])
    chart = BarChart()
    chart.add_data(Reference(parts, min_col=2, min_row=1, max_row=8))
    parts.add_chart(chart, 'D2')
    book.save(path)


MAKERS = {
    'xlsxwriter-drawings': xlsxwriter_drawings,
    'openpyxl-drawings': openpyxl_drawings,
    'openpyxl-links': openpyxl_links,
    'xlsxwriter-links': xlsxwriter_links,
    'openpyxl-notes': openpyxl_notes,
    'xlsxwriter-notes': xlsxwriter_notes,
    'openpyxl-conditions': openpyxl_conditions,
    'xlsxwriter-conditions': xlsxwriter_conditions,
}

if __name__ == '__main__':
    MAKERS[sys.argv[1]](sys.argv[2])
