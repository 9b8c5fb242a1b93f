"""Has LibreOffice open workbooks, make edits of their structure through its own interface, and save them as .xlsx.

    python3 edit.py SOFFICE PROFILE-ARGUMENT JOBS.json      (JOBS: [{"from", "to", "edits"}], the edits as Operation has them)
"""
import json
import pathlib
import subprocess
import sys
import time

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.table import CellAddress, CellRangeAddress, TableSortField

INSERT = {name: uno.Enum('com.sun.star.sheet.CellInsertMode', name) for name in ('DOWN', 'RIGHT', 'ROWS', 'COLUMNS')}
DELETE = {name: uno.Enum('com.sun.star.sheet.CellDeleteMode', name) for name in ('UP', 'LEFT', 'ROWS', 'COLUMNS')}
LAST_ROW, LAST_COLUMN = 1048575, 1023


def prop(name, value):
    made = PropertyValue()
    made.Name, made.Value = name, value
    return made


def address(sheet, row, column, rows, columns):
    made = CellRangeAddress()
    made.Sheet, made.StartRow, made.StartColumn = sheet.RangeAddress.Sheet, row, column
    made.EndRow, made.EndColumn = min(row + rows - 1, LAST_ROW), min(column + columns - 1, LAST_COLUMN)
    return made


def lines(sheet, edit):
    isRows = edit['axis'] == 'rows'
    within = edit.get('within')
    first, count = (within['from'], within['to'] - within['from'] + 1) if within else (0, LAST_ROW + 1)
    area = address(sheet, edit['at'], first, edit['count'], count) if isRows else address(sheet, first, edit['at'], count, edit['count'])
    if edit['kind'] == 'insert':
        sheet.insertCells(area, (INSERT['DOWN'] if isRows else INSERT['RIGHT']) if within else (INSERT['ROWS'] if isRows else INSERT['COLUMNS']))
    else:
        sheet.removeRange(area, (DELETE['UP'] if isRows else DELETE['LEFT']) if within else (DELETE['ROWS'] if isRows else DELETE['COLUMNS']))


def make(sheets, edit):
    kind = edit['kind']
    if kind in ('insert', 'delete'):
        lines(sheets.getByName(edit['sheet']), edit)
    elif kind == 'move':
        source, target = edit['from'], edit['to']
        sheet = sheets.getByName(source['sheet'])
        cell = CellAddress()
        cell.Sheet, cell.Row, cell.Column = sheets.getByName(target['sheet']).RangeAddress.Sheet, target['row'], target['column']
        sheet.moveRange(cell, address(sheet, source['row'], source['column'], source['rows'], source['columns']))
    elif kind == 'renameSheet':
        sheets.getByName(edit['sheet']).setName(edit['name'])
    elif kind == 'removeSheet':
        sheets.removeByName(edit['sheet'])
    elif kind == 'placeSheet':
        sheets.moveByName(edit['sheet'], edit['at'])
    elif kind == 'sort':
        area = address(sheets.getByName(edit['sheet']), edit['row'], edit['column'], edit['rows'], edit['columns'])
        cells = sheets.getByName(edit['sheet']).getCellRangeByPosition(area.StartColumn, area.StartRow, area.EndColumn, area.EndRow)
        fields = []
        for key in edit['keys']:
            field = TableSortField()
            field.Field, field.IsAscending = key['column'] - edit['column'], not key['descending']
            fields.append(field)
        typed = uno.Any('[]com.sun.star.table.TableSortField', tuple(fields))
        uno.invoke(cells, 'sort', ((prop('SortFields', typed), prop('ContainsHeader', False), prop('BindFormatsToContent', True)),))
    elif kind == 'addSheet':
        sheets.insertNewByName(edit['name'], edit['at'])
    else:
        raise ValueError(kind)


soffice, profile, jobs = sys.argv[1:]
pipe = 'tarebook' + str(time.time_ns())
office = subprocess.Popen([soffice, profile, '--headless', '--norestore', f'--accept=pipe,name={pipe};urp;'], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
try:
    resolver = uno.getComponentContext().ServiceManager.createInstance('com.sun.star.bridge.UnoUrlResolver')
    for attempt in range(300):
        try:
            context = resolver.resolve(f'uno:pipe,name={pipe};urp;StarOffice.ComponentContext')
            break
        except Exception:
            time.sleep(0.2)
    desktop = context.ServiceManager.createInstanceWithContext('com.sun.star.frame.Desktop', context)
    for job in json.loads(pathlib.Path(jobs).read_text()):
        document = desktop.loadComponentFromURL(pathlib.Path(job['from']).as_uri(), '_blank', 0, (prop('Hidden', True),))
        for edit in job['edits']:
            make(document.Sheets, edit)
        document.storeToURL(pathlib.Path(job['to']).as_uri(), (prop('FilterName', 'Calc MS Excel 2007 XML'),))
        document.close(True)
    desktop.terminate()
except Exception:
    office.terminate()
    raise
office.wait(60)
