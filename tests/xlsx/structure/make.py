"""Writes one invented workbook with two libraries, in the folder that is given: all that names cells stands in it.

    python3 make.py xlsxwriter FOLDER      python3 make.py openpyxl FOLDER
"""
import io
import struct
import sys
import zlib


def png() -> bytes:
    """A picture of 2 by 2 dots."""
    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack('>I', len(data)) + kind + data + struct.pack('>I', zlib.crc32(kind + data))
    rows = b'\0\x40\x80\xc0\x10\x20\x30' * 2
    return b'\x89PNG\r\n\x1a\n' + chunk(b'IHDR', struct.pack('>IIBBBBB', 2, 2, 8, 2, 0, 0, 0)) + chunk(b'IDAT', zlib.compress(rows)) + chunk(b'IEND', b'')


PARTS = [('cap', 40, 0.75), ('post', 5, 1.5), ('brace', 6.5, 1.25), ('gusset', 2, 2), ('clip', 1, 0.5), ('web', 30, 12), ('skin', 48, 24), ('tab', 3, 1)]


def with_xlsxwriter(path: str) -> None:
    import xlsxwriter
    book = xlsxwriter.Workbook(path)
    parts, lists, table = (book.add_worksheet(name) for name in ('Parts', 'Lists', 'Table of parts'))
    look = book.add_format({'bg_color': '#FFEEDD'})
    for column, name in enumerate(('part', 'length', 'width', 'area')):
        parts.write(0, column, name)
    for row, (name, length, width) in enumerate(PARTS, 1):
        parts.write_row(row, 0, (name, length, width))
        parts.write_formula(row, 3, f'=B{row + 1}*C{row + 1}', None, length * width)
        parts.write_formula(row, 4, f'=D{row + 1}/$D$10+Lists!$A$2', None, 0)
    parts.write_formula('D10', '=SUM(D2:D9)')
    parts.write_formula('F2', '=COUNT($B$2:$B$9,C:C)+SUM(2:3)')
    parts.write_array_formula('H12:H14', '{=B2:B4*2}')
    parts.merge_range('A12:C12', 'merged')
    parts.merge_range('A14:B15', 'block')
    parts.data_validation('C2:C9', {'validate': 'list', 'source': '=Lists!$A$1:$A$3'})
    parts.data_validation('B2:B9', {'validate': 'custom', 'value': '=B2>0'})
    parts.conditional_format('D2:D9', {'type': 'formula', 'criteria': '=$D2>$B$3', 'format': look})
    parts.conditional_format('A2:A9', {'type': 'data_bar', 'data_bar_2010': True, 'min_type': 'formula', 'min_value': '=$B$2'})
    parts.write_url('A11', 'https://example.org/', string='out')
    parts.write_url('B11', "internal:'Table of parts'!B3", string='in')
    parts.autofilter('A1:D9')
    parts.filter_column('B', 'x > 2')
    parts.print_area('A1:E15')
    parts.repeat_rows(0)
    parts.repeat_columns(0)
    parts.set_h_pagebreaks([4, 8])
    parts.set_v_pagebreaks([3])
    parts.write_comment('A3', 'two of each')
    parts.write_comment('B6', 'drilled')
    parts.set_row(6, None, None, {'hidden': True})
    parts.set_row(4, 33)
    parts.set_column('A:A', 18)
    parts.set_column('C:D', 11)
    parts.freeze_panes(1, 1)
    parts.set_selection('C4:D5')
    parts.ignore_errors({'number_stored_as_text': 'A2:A9'})
    parts.add_sparkline('G3', {'range': 'Parts!B3:D3'})
    parts.insert_image('I3', 'dots.png', {'image_data': io.BytesIO(png()), 'x_scale': 40, 'y_scale': 40})
    chart = book.add_chart({'type': 'column'})
    chart.add_series({'name': '=Parts!$D$1', 'categories': '=Parts!$A$2:$A$9', 'values': '=Parts!$D$2:$D$9'})
    parts.insert_chart('I12', chart)
    for row, name in enumerate(('thin', 'thick', 'none')):
        lists.write(row, 0, name)
    lists.write_formula('B1', '=Parts!D10')
    lists.write_formula('B2', '=SUM(Parts!B2:B9)+Parts!$C$4')
    lists.write_formula('B3', '=SUBTOTAL(109,Sizes[length])')
    lists.conditional_format('A1:A3', {'type': 'formula', 'criteria': '=$B$1>1', 'format': look})
    table.add_table('B2:D8', {
        'name': 'Sizes', 'total_row': True, 'data': [list(part) for part in PARTS[:5]],
        'columns': [{'header': 'part', 'total_string': 'all'}, {'header': 'length', 'total_function': 'sum'}, {'header': 'area', 'formula': '=Sizes[[#This Row],[length]]*2'}],
    })
    table.write_formula('F3', '=SUM(Sizes[length])+SUM(Sizes[area])')
    own = book.add_chartsheet('Drawn')
    drawn = book.add_chart({'type': 'line'})
    drawn.add_series({'values': '=Parts!$C$2:$C$9'})
    own.set_chart(drawn)
    book.define_name('Lengths', '=Parts!$B$2:$B$9')
    book.define_name('One', '=Parts!$C$4')
    book.define_name('Lists!Own', '=Lists!$A$2')
    book.close()


def with_openpyxl(path: str) -> None:
    import openpyxl
    from openpyxl.chart import BarChart, Reference
    from openpyxl.comments import Comment
    from openpyxl.formatting.rule import FormulaRule
    from openpyxl.styles import PatternFill
    from openpyxl.workbook.defined_name import DefinedName
    from openpyxl.worksheet.datavalidation import DataValidation
    from openpyxl.worksheet.pagebreak import Break, ColBreak
    from openpyxl.worksheet.table import Table
    book = openpyxl.Workbook()
    parts = book.active
    parts.title = 'Parts'
    lists, table = book.create_sheet('Lists'), book.create_sheet('Table of parts')
    parts.append(['part', 'length', 'width', 'area'])
    for row, part in enumerate(PARTS, 2):
        parts.append([*part, f'=B{row}*C{row}', f'=D{row}/$D$10+Lists!$A$2'])
    parts['D10'] = '=SUM(D2:D9)'
    parts['F2'] = '=COUNT($B$2:$B$9,C:C)+SUM(2:3)'
    parts['F3'] = '=FOREIGN.THING(A3,B2:B5)'
    parts.merge_cells('A12:C12')
    parts.merge_cells('A14:B15')
    choices = DataValidation(type='list', formula1='=Lists!$A$1:$A$3')
    choices.add('C2:C9')
    above = DataValidation(type='custom', formula1='=B2>0')
    above.add('B2:B9')
    for rule in (choices, above):
        parts.add_data_validation(rule)
    fill = PatternFill('solid', bgColor='FFFFCCCC')
    parts.conditional_formatting.add('D2:D9', FormulaRule(formula=['$D2>$B$3'], fill=fill))
    parts.conditional_formatting.add('A2:A4 A7:A9', FormulaRule(formula=['A2<>""'], fill=fill))
    parts['A11'].hyperlink = 'https://example.org/'
    parts['B11'].hyperlink = "#'Table of parts'!B3"
    parts.auto_filter.ref = 'A1:D9'
    parts.auto_filter.add_filter_column(1, ['5', '6.5'])
    parts.auto_filter.add_sort_condition('B2:B9')
    parts.print_area = 'A1:E15'
    parts.print_title_rows = '1:1'
    parts.row_breaks.append(Break(id=4))
    parts.row_breaks.append(Break(id=8))
    parts.col_breaks = ColBreak()
    parts.col_breaks.append(Break(id=3))
    parts['A3'].comment = Comment('two of each', 'a builder')
    parts['B6'].comment = Comment('drilled', 'a builder')
    parts.row_dimensions[7].hidden = True
    parts.row_dimensions[5].height = 33
    parts.column_dimensions['A'].width = 18
    parts.column_dimensions.group('C', 'D', hidden=False)
    parts.freeze_panes = 'B2'
    parts.sheet_view.selection[0].activeCell = 'C4'
    parts.sheet_view.selection[0].sqref = 'C4:D5'
    chart = BarChart()
    chart.add_data(Reference(parts, min_col=4, min_row=1, max_row=9), titles_from_data=True)
    chart.set_categories(Reference(parts, min_col=1, min_row=2, max_row=9))
    parts.add_chart(chart, 'I12')
    for name in ('thin', 'thick', 'none'):
        lists.append([name])
    lists['B1'] = '=Parts!D10'
    lists['B2'] = '=SUM(Parts!B2:B9)+Parts!$C$4'
    lists['B3'] = '=SUM(Sizes[length])'
    table['B2'], table['C2'], table['D2'] = 'part', 'length', 'area'
    for row, part in enumerate(PARTS[:5], 3):
        table.cell(row, 2, part[0])
        table.cell(row, 3, part[1])
        table.cell(row, 4, f'=C{row}*2')
    table.add_table(Table(displayName='Sizes', ref='B2:D7'))
    table['F3'] = '=SUM(Sizes[length])+SUM(Sizes[area])'
    for name, refers in (('Lengths', 'Parts!$B$2:$B$9'), ('One', 'Parts!$C$4')):
        book.defined_names.append(DefinedName(name, attr_text=refers))
    own = DefinedName('Own', attr_text='Lists!$A$2', localSheetId=1)
    book.defined_names.append(own)
    book.save(path)


{'xlsxwriter': with_xlsxwriter, 'openpyxl': with_openpyxl}[sys.argv[1]](f'{sys.argv[2]}/{sys.argv[1]}.xlsx')
