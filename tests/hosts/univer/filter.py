"""Workbooks with filters by two writers, and what openpyxl reads of filters in a workbook.

    python3 filter.py write FOLDER
    python3 filter.py read FILE.xlsx SHEET      (prints JSON)
"""
import json
import sys

import openpyxl
import xlsxwriter
from openpyxl.worksheet.filters import ColorFilter, CustomFilter, CustomFilters, DynamicFilter, FilterColumn

ROWS = [['rib', 4, 0.02], ['skin', 12, 0.025], ['rib', 3, 0.02], ['strap', 7, None], ['skin', 1, 0.032]]


def by_openpyxl(path):
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = 'Parts'
    sheet.append(['part', 'length', 'gauge'])
    for row in ROWS:
        sheet.append(row)
    sheet['A8'] = '=SUBTOTAL(9,B2:B6)'
    sheet.auto_filter.ref = 'A1:C6'
    sheet.auto_filter.add_filter_column(0, ['rib'])
    for row in (3, 5, 6):
        sheet.row_dimensions[row].hidden = True
    others = book.create_sheet('Others')
    others.append(['part', 'length', 'gauge'])
    for row in ROWS:
        others.append(row)
    others.auto_filter.ref = 'A1:C6'
    others.auto_filter.filterColumn.append(FilterColumn(colId=0, colorFilter=ColorFilter(dxfId=0, cellColor=True)))
    others.auto_filter.filterColumn.append(FilterColumn(colId=1, customFilters=CustomFilters(customFilter=[CustomFilter(operator='greaterThan', val='3')])))
    others.auto_filter.filterColumn.append(FilterColumn(colId=2, dynamicFilter=DynamicFilter(type='aboveAverage', val=0.02)))
    for row in (4, 6):
        others.row_dimensions[row].hidden = True
    book.save(path)


def by_xlsxwriter(path):
    book = xlsxwriter.Workbook(path)
    sheet = book.add_worksheet('Parts')
    sheet.write_row(0, 0, ['part', 'length', 'gauge'])
    for number, row in enumerate(ROWS):
        sheet.write_row(number + 1, 0, row)
    sheet.write_formula('A8', '=SUBTOTAL(9,B2:B6)', None, 7)
    sheet.autofilter('A1:C6')
    sheet.filter_column_list('A', ['rib'])
    for row in (2, 4, 5):
        sheet.set_row(row, options={'hidden': True})
    others = book.add_worksheet('Others')
    others.write_row(0, 0, ['part', 'length', 'gauge'])
    for number, row in enumerate(ROWS):
        others.write_row(number + 1, 0, row)
    others.autofilter('A1:C6')
    others.filter_column('B', 'x > 3')
    for row in (3, 5):
        others.set_row(row, options={'hidden': True})
    book.close()


def read(path, name):
    sheet = openpyxl.load_workbook(path)[name]
    columns = {
        str(one.colId): sorted(one.filters.filter) + ([''] if one.filters.blank else []) if one.filters else 'other'
        for one in sheet.auto_filter.filterColumn
    }
    tables = {
        table.name: {str(one.colId): sorted(one.filters.filter) for one in table.autoFilter.filterColumn if one.filters}
        for table in sheet.tables.values()
        if table.autoFilter
    }
    hidden = sorted(row for row, look in sheet.row_dimensions.items() if look.hidden)
    cells = [[cell.value for cell in row] for row in sheet.iter_rows()]
    print(json.dumps({'ref': sheet.auto_filter.ref, 'columns': columns, 'tables': tables, 'hidden': hidden, 'cells': cells}, default=str))


if sys.argv[1] == 'write':
    by_openpyxl(sys.argv[2] + '/openpyxl.xlsx')
    by_xlsxwriter(sys.argv[2] + '/xlsxwriter.xlsx')
else:
    read(*sys.argv[2:])
