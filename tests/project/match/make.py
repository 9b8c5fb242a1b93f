"""
Parts lists as other people and programs write them, and what they weigh by plain arithmetic.

make.py FOLDER writes the lists and prints, for each, {"weight": lb, "moment": lb.in, "components": {name: lb}}.
Invented parts; nothing here knows how Tarebook reads a list.
"""

import csv
import json
import random
import sys
from fractions import Fraction as F
from pathlib import Path

from openpyxl import Workbook

LB = F(45359237, 100000000)
MM = F(254, 10)


class Sum:
    def __init__(self):
        self.weight, self.moment, self.components = F(0), F(0), {}

    def add(self, component, pounds, inches):
        self.weight += pounds
        self.moment += pounds * inches
        self.components[component] = self.components.get(component, F(0)) + pounds

    def plain(self):
        return {
            "weight": float(self.weight),
            "moment": float(self.moment),
            "components": {name: float(value) for name, value in self.components.items()},
        }


def long_list(folder):
    """2,000 rows by openpyxl: weights of one piece each, blank rows between."""
    dice = random.Random(1017)
    sums = Sum()
    book = Workbook()
    sheet = book.active
    sheet.title = "Master list"
    sheet.append(["Item no", "Description", "Assembly", "Qty", "Ga", "Alloy", "Unit weight (lb)", "FS (in)"])
    for number in range(1, 2001):
        assembly = ["Wing", "Fuselage", "Tail", "Controls"][dice.randrange(4)]
        pieces = dice.choice([1, 1, 2, 4, 12])
        thousandths = dice.randint(5, 4200)
        tenths = dice.randint(80, 2100)
        alloy = dice.choice(["6061-T6", "2024-T3 Alclad"])
        sheet.append(
            [f"A-{number:04}", f"Bracket {number}", assembly, pieces, dice.choice([16, 20, 22, 25]), alloy,
             thousandths / 1000, tenths / 10]
        )
        if number % 250 == 0:
            sheet.append([])
        sums.add(assembly, pieces * F(thousandths, 1000), F(tenths, 10))
    book.save(folder / "long.xlsx")
    return sums.plain()


def metric_list(folder):
    """Millimetres and kilograms, a decimal comma, some cells with a unit of their own. LibreOffice makes a workbook of it."""
    sums = Sum()
    rows = [
        ("Spar cap", "Wing", "2", "3,4", "1510", F("3.4"), F(1510)),
        ("Leading edge skin", "Wing", "4", "850 g", "1395,5", F("0.85"), F("1395.5")),
        ("Flap rib", "Wing", "14", "1,26", "2010 mm", F("1.26"), F(2010)),
        ("Firewall", "Fuselage", "1", "2,75", "0,62 m", F("2.75"), F(620)),
        ("Seat pan", "Fuselage", "2", "1,905", "1120", F("1.905"), F(1120)),
    ]
    with open(folder / "metric.csv", "w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file, delimiter=";")
        writer.writerow(["Benennung", "Baugruppe", "Anzahl", "Masse gesamt (kg)", "Station (mm)"])
        for part, group, pieces, mass, station, kilograms, millimetres in rows:
            writer.writerow([part, group, pieces, mass, station])
            sums.add(group, kilograms / LB, millimetres / MM)
    return sums.plain()


def units_in_cells(folder):
    """Weights of one piece, each cell with a unit of its own, pasted from a document: all of them texts."""
    sums = Sum()
    book = Workbook()
    sheet = book.active
    sheet.title = "Tail"
    sheet.append(["Part name", "Qty", "Gauge", "Alloy", "Weight per piece", "Station"])
    for row, pounds, inches in [
        (["Stabilizer skin", "2 ea", "0.020 in", "6061-T6", "3.2 lb", "212.5 in"], 2 * F("3.2"), F("212.5")),
        (["Hinge bracket", "4", "0.125 in", "6061-T6", "12 oz", "5400 mm"], 4 * F(12, 16), 5400 / MM),
        (["Rudder post", "1", "20 ga", "4130N", "1 lb 4 oz", "18' 6\""], F(20, 16), F(222)),
        (["Trim tab", "2 pcs", "0.016\"", "2024-T3", "310 g", "FS 231.25"], 2 * F("0.31") / LB, F("231.25")),
    ]:
        sheet.append(row)
        sums.add("Tail", pounds, inches)
    book.save(folder / "units.xlsx")
    return sums.plain()


def headings(folder):
    """A title merged over the list, a header of two rows, components as headings, subtotals and a total by formulas."""
    sums = Sum()
    book = Workbook()
    sheet = book.active
    sheet.title = "Estimate"
    sheet["A1"] = "Weight estimate, invented airplane"
    sheet.merge_cells("A1:F1")
    sheet["A2"] = "All figures from drawings"
    sheet.append([])
    sheet.append(["Part", "No. off", "Weight", None, "Arm", "Remarks"])
    sheet.merge_cells("C4:D4")
    sheet.append([None, None, "each, lb", "total, lb", "in", None])
    row = 6
    subtotals = []
    for component, parts in [
        ("WING", [("Main spar", 2, "14.25", "61.5"), ("Ribs", 24, "0.31", "70.25"), ("Skins", 8, "2.125", "72")]),
        ("FUSELAGE", [("Longerons", 4, "3.05", "110"), ("Firewall", 1, "5.4", "32.75")]),
    ]:
        sheet.cell(row, 1, component)
        row += 1
        first = row
        for part, pieces, each, arm in parts:
            sheet.cell(row, 1, part)
            sheet.cell(row, 2, pieces)
            sheet.cell(row, 3, float(each))
            sheet.cell(row, 4, f"=B{row}*C{row}")
            sheet.cell(row, 5, float(arm))
            sums.add(component, pieces * F(each), F(arm))
            row += 1
        sheet.cell(row, 1, "Subtotal")
        sheet.cell(row, 4, f"=SUM(D{first}:D{row - 1})")
        subtotals.append(f"D{row}")
        row += 2
    sheet.cell(row, 1, "TOTAL")
    sheet.cell(row, 4, "=" + "+".join(subtotals))
    book.save(folder / "headings.xlsx")
    return sums.plain()


def sheet_by_component(folder):
    """One sheet a component; a typed total agrees with weight times quantity alone."""
    sums = Sum()
    book = Workbook()
    book.remove(book.active)
    for component, parts in [
        ("Wing", [("Spar", 2, "12.5", "60"), ("Rib", 20, "0.35", "66")]),
        ("Tail", [("Fin", 1, "6.2", "220"), ("Hinge", 6, "0.15", "228.5")]),
    ]:
        sheet = book.create_sheet(component)
        sheet.append(["Part", "Qty", "Wt lb", "Arm in"])
        total = F(0)
        for part, pieces, each, arm in parts:
            sheet.append([part, pieces, float(each), float(arm)])
            total += pieces * F(each)
            sums.add(component, pieces * F(each), F(arm))
        sheet.append(["Total", None, float(total), None])
    book.save(folder / "sheets.xlsx")
    return sums.plain()


if __name__ == "__main__":
    target = Path(sys.argv[1])
    makers = {
        "long.xlsx": long_list,
        "metric.csv": metric_list,
        "units.xlsx": units_in_cells,
        "headings.xlsx": headings,
        "sheets.xlsx": sheet_by_component,
    }
    print(json.dumps({name: make(target) for name, make in makers.items()}))
