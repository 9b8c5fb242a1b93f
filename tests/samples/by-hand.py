"""
Weight, moment and margin of a sample workbook, worked out apart from Tarebook: openpyxl reads what is typed and the
formulas, Python does the sums, and what each TARE function of the parts list is stands below in plain arithmetic.
No stored result is read. Prints JSON.

Sources. Densities: Aluminum Association (6061 2.70, 2117 2.75, 5052 2.68, 7178 2.83 g/cm3), 4130 7.85
(ASM data sheet). Metric hardware: the dimensions of its standards. Bend allowance: (0.01743 R + 0.0078 T) a degree (FAA-H-8083-31, chapter 4). Airfoil: the equations of
NACA Report 460, integrated by small steps. Rivets: MS20470 and MS20426, the head a spherical cap of 2D and 0.43D or
a 100 degree cone; the blind rivet is a tube, a domed head and the head of its mandrel (a model). Growth by status:
practice of spacecraft makers, from memory.
"""
import json, math, re, sys
import openpyxl

POUND, INCH = 453.59237, 2.54
lb_in3 = lambda g: g * INCH ** 3 / POUND
DENSITY = {"6061": lb_in3(2.70), "2024": lb_in3(2.78), "2117": lb_in3(2.75), "5052": lb_in3(2.68), "7178": lb_in3(2.83), "4130": lb_in3(7.85)}
GROWTH = {"estimated": 0.25, "laid out": 0.15, "released": 0.05, "weighed": 0, "existing": 0}
density = lambda name: DENSITY[name.split("-")[0]]


def outline(digits, x, side):
    """y of a four-digit airfoil of chord 1 (NACA Report 460), the thickness laid off square to the mean line."""
    m, p, t = int(digits[0]) / 100, int(digits[1]) / 10, int(digits[2:]) / 100
    half = t / 0.2 * (0.2969 * math.sqrt(x) - 0.126 * x - 0.3516 * x * x + 0.2843 * x ** 3 - 0.1015 * x ** 4)
    mean = m / p ** 2 * (2 * p * x - x * x) if x < p else m / (1 - p) ** 2 * (1 - 2 * p + 2 * p * x - x * x)
    slope = 2 * m / p ** 2 * (p - x) if x < p else 2 * m / (1 - p) ** 2 * (p - x)
    a = math.atan(slope)
    return x - side * half * math.sin(a), mean + side * half * math.cos(a)


STEPS = 200_000


def side_points(digits, chord, side):
    # Close together at the nose, where the outline turns.
    return [tuple(chord * c for c in outline(digits, (k / STEPS) ** 2, side)) for k in range(STEPS + 1)]


SIDES = {}


def side_of(digits, chord, side):
    key = (digits, chord, side)
    if key not in SIDES:
        SIDES[key] = side_points(digits, chord, side)
    return SIDES[key]


def cut(points, a, b):
    """The points from x = a to x = b, with the ends put in; both ends of the chord are whole."""
    found = []
    for (x0, y0), (x1, y1) in zip(points, points[1:]):
        for x in (a, b):
            if x0 < x < x1:
                found.append((x, y0 + (y1 - y0) * (x - x0) / (x1 - x0)))
        if a <= x1 <= b:
            found.append((x1, y1))
    if a <= points[0][0]:
        found.insert(0, points[0])
    return found


def pieces(digits, chord, start, end, side):
    low = -1 if start == 0 else start * chord
    high = chord * 2 if end == 1 else end * chord
    return cut(side_of(str(digits), chord, side), low, high)


def girth(digits, chord, start, end, side="both"):
    run = lambda points: sum(math.dist(a, b) for a, b in zip(points, points[1:]))
    return sum(run(pieces(digits, chord, start, end, s)) for s, name in ((1, "upper"), (-1, "lower")) if side in ("both", name))


def area(digits, chord, start, end):
    under = lambda points: sum((b[0] - a[0]) * (a[1] + b[1]) / 2 for a, b in zip(points, points[1:]))
    return under(pieces(digits, chord, start, end, 1)) - under(pieces(digits, chord, start, end, -1))


def height(digits, chord, at):
    def y(side):
        points = side_of(str(digits), chord, side)
        for (x0, y0), (x1, y1) in zip(points, points[1:]):
            if x0 <= at * chord <= x1:
                return y0 + (y1 - y0) * (at * chord - x0) / (x1 - x0)
    return y(1) - y(-1)


def bends(sides, turns, t, r):
    """Flat width: the sides, less two setbacks and with the allowance at each right-angled bend."""
    return sum(sides) - turns * 2 * (r + t) + turns * 90 * (0.01743 * r + 0.0078 * t)


circle = lambda d: math.pi * d * d / 4
FUNCTIONS = {
    "AREA_RECT": lambda a, b: a * b,
    "AREA_CIRCLE": circle,
    "AREA_TRIANGLE": lambda a, b: a * b / 2,
    "AREA_TRAPEZOID": lambda a, b, h: (a + b) / 2 * h,
    "AREA_ELLIPSE": lambda a, b: math.pi * a * b / 4,
    "AREA_SLOT": lambda length, width: (length - width) * width + circle(width),
    "AIRFOIL_AREA": area,
    "AIRFOIL_GIRTH": girth,
    "AIRFOIL_HEIGHT": height,
    "FLAT_ANGLE": lambda a, b, t, r: bends([a, b], 1, t, r),
    "FLAT_CHANNEL": lambda web, a, b, t, r: bends([web, a, b], 2, t, r),
    "FLAT_ZEE": lambda web, a, b, t, r: bends([web, a, b], 2, t, r),
    "WEIGHT_TUBE": lambda d, wall, length, metal: (circle(d) - circle(d - 2 * wall)) * length * density(metal),
    "WEIGHT_BAR": lambda d, length, metal: circle(d) * length * density(metal),
    "WEIGHT_SECTION": lambda section, length, metal: section * length * density(metal),
}


class Book:
    def __init__(self, path):
        self.book = openpyxl.load_workbook(path)
        names = self.book.defined_names
        names = names.values() if hasattr(names, "values") else names.definedName
        self.names = {n.name.lower(): n.attr_text.replace("$", "") for n in names}
        self.known = {}

    def cell(self, sheet, address):
        key = (sheet, address)
        if key not in self.known:
            value = self.book[sheet][address].value
            text = getattr(value, "text", value)
            self.known[key] = self.formula(sheet, text[1:]) if isinstance(text, str) and text.startswith("=") else text
        return self.known[key]

    def formula(self, sheet, text):
        text = re.sub(r"_xldudf_TARE_([A-Z_]+)\(", r"TARE['\1'](", text)
        text = re.sub(r"(?<![\w'\"$!.])(?:(\w+)!)?\$?([A-Z]{1,2})\$?(\d+)\b", lambda m: f"cell({m[1] or sheet!r}, '{m[2]}{m[3]}')" if not m[1] else f"cell('{m[1]}', '{m[2]}{m[3]}')", text)
        text = re.sub(r"\b([A-Z][a-zA-Z]+)\b(?!['(])", lambda m: f"name('{m[1]}')" if m[1].lower() in self.names else m[0], text)
        return eval(text.replace("^", "**"), {"TARE": FUNCTIONS, "cell": self.cell, "name": self.name, "PI": lambda: math.pi})

    def name(self, name):
        sheet, address = self.names[name.lower()].replace("'", "").split("!")
        return self.cell(sheet, address)


def columns(ws, row):
    return {c.value: c.column_letter for c in ws[row] if c.value}


SHANK, CONE = {3: 0.094, 4: 0.125, 5: 0.156}, {3: 0.179, 4: 0.225}


def rivet_weight(style, d, grip):
    dash, length = round(d * 32), round((grip + 1.5 * d) * 16) / 16
    if style == "blind":
        # 1/8 in, grip up to 1/16: body .125 (IFI-114 table 1, .128 to .122) and .212 long (table 2, from memory: the
        # greatest grip and .150), bore .076, head .250 by .040, the mandrel's head .12 long; the wire breaks off.
        assert dash == 4 and grip <= 0.0625
        sphere = (0.125 ** 2 + 0.04 ** 2) / 0.08
        dome = 2 * math.pi / 3 * ((sphere ** 2 - 0.038 ** 2) ** 1.5 - (sphere ** 2 - 0.125 ** 2) ** 1.5) - math.pi * (sphere - 0.04) * (0.125 ** 2 - 0.038 ** 2)
        head = math.pi * 0.12 / 12 * (0.076 ** 2 + 0.076 * 0.122 + 0.122 ** 2)
        return ((circle(0.125) - circle(0.076)) * 0.212 + dome) * DENSITY["5052"] + head * DENSITY["7178"]
    s = SHANK[dash]
    if style == "flush":
        h = (CONE[dash] - s) / 2 / math.tan(math.radians(50))
        return (math.pi * h / 12 * (CONE[dash] ** 2 + CONE[dash] * s + s * s) + circle(s) * (length - h)) * DENSITY["2117"]
    h = 0.43 * s
    return (math.pi * h / 6 * (3 * s * s + h * h) + circle(s) * length) * DENSITY["2117"]


def joints(book):
    """Weight and moment of the rivets of each component."""
    if "Joints" not in book.book.sheetnames:
        return {}
    ws = book.book["Joints"]
    at = columns(ws, 5)
    sums = {}
    for row in range(6, ws.max_row + 1):
        get = lambda title: book.cell("Joints", f"{at[title]}{row}")
        component = ws[f"{at['Component']}{row}"].value
        if not component:
            continue
        grip = sum(get(f"Sheet {n} (in)") or 0 for n in (1, 2, 3))
        one_row = math.floor((get("Run (in)") - 2 * get("End margin (in)")) / get("Pitch (in)") + 1e-9) + 1
        count = one_row * get("Rows") * get("Repeats")
        weight = count * rivet_weight(get("Style"), get("Diameter (in)"), grip)
        w, m = sums.get(component, (0, 0))
        sums[component] = (w + weight, m + weight * get("Arm (in)"))
    return sums


def metric_hardware(name):
    """lb of one M4 screw 12 long, nut or washer (ISO 4017, 4032, 7089): hexagon 7 across flats, head 2.8, nut 3.2 high,
    thread of its pitch diameter (ISO 724: d - 0.6495 P), washer 9 by 4.3 by 0.8 mm; steel .284 lb/in3."""
    hexagon, thread = math.sqrt(3) / 2 * 49, circle(4 - 0.649519 * 0.7)
    mm3 = {"ISO 4017 M4x12": hexagon * 2.8 + thread * 12, "ISO 4032 M4": (hexagon - thread) * 3.2, "ISO 7089 M4": (circle(9) - circle(4.3)) * 0.8}
    return mm3[name] / 25.4 ** 3 * 0.284


def hardware(book):
    """Weight and moment of the hardware of each component."""
    if "Hardware" not in book.book.sheetnames:
        return {}
    ws = book.book["Hardware"]
    at = columns(ws, 5)
    sums = {}
    for row in range(6, ws.max_row + 1):
        get = lambda title: book.cell("Hardware", f"{at[title]}{row}")
        item = ws[f"{at['Item']}{row}"].value
        if not item:
            continue
        each = get("Each (lb)")
        weight = get("Qty") * (metric_hardware(item) if each is None else each)
        w, m = sums.get(get("Component"), (0, 0))
        sums[get("Component")] = (w + weight, m + weight * get("Arm (in)"))
    return sums


def main(path):
    book = Book(path)
    ws = book.book["Parts"]
    at = columns(ws, 5)
    of_joints = joints(book)
    of_hardware = hardware(book)
    growth = dict(GROWTH)
    if "Allowances" in book.book.sheetnames:
        own = book.book["Allowances"]
        growth.update({own[f"A{r}"].value: own[f"B{r}"].value for r in range(6, own.max_row + 1) if own[f"A{r}"].value})
    components = {}
    for row in range(6, ws.max_row + 1):
        component = ws[f"{at['Component']}{row}"].value
        if not component:
            continue
        get = lambda title: book.cell("Parts", f"{at[title]}{row}") if title in at else None
        if of_joints and str(get("Part")).startswith("Rivets, from the joints"):
            weight, moment = of_joints[component]
        elif of_hardware and str(get("Part")).startswith("Hardware, from the sheet Hardware"):
            weight, moment = of_hardware[component]
        else:
            weighed, quantity = get("Weighed (lb)"), get("Qty")
            each = weighed is None and get("Each (lb)")
            weight = weighed if weighed is not None else each * quantity if each else get("Flat area (in²)") * get("Thickness (in)") * density(get("Material")) * quantity
            moment = weight * (get("Arm (in)") or 0)
        status = get("Status") or "estimated"
        total = components.setdefault(component, {"now": 0, "moment": 0, "forecast": 0})
        total["now"] += weight
        total["moment"] += moment
        total["forecast"] += weight * (1 + growth[status])
    budget = {}
    if "Budget" in book.book.sheetnames:
        sheet = book.book["Budget"]
        first = next(r for r in range(1, 20) if sheet[f"A{r}"].value == "Component") + 1
        for row in range(first, sheet.max_row + 1):
            if sheet[f"A{row}"].value and isinstance(sheet[f"B{row}"].value, (int, float)):
                budget[sheet[f"A{row}"].value] = sheet[f"B{row}"].value
    whole = {k: sum(c[k] for c in components.values()) for k in ("now", "moment", "forecast")}
    whole["budget"] = sum(budget.values())
    for name, amount in budget.items():
        components.setdefault(name, {"now": 0, "moment": 0, "forecast": 0})["budget"] = amount
    print(json.dumps({"total": whole, "components": components}))


main(sys.argv[1])
