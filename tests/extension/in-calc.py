"""
Drives LibreOffice Calc without a window: one start of the program for all steps, in a profile of its own, ended
afterwards whatever happens. One line of JSON out for each step.

usage: in-calc.py '{"profile": folder, "steps": [step, …]}'
with the steps  {"install": file}                      the extension
                {"book": file, "copy": file or null, "papers": [...]}
                                                       works a workbook out, perhaps saves a copy, and lays it out on
                                                       A4 and US Letter
                {"formulas": [[place, text], …], "until": text}
                                                       fills the cells of a new sheet and works them out, where there is a
                                                       text again until it is shown
                {"program": file, "text": text}        writes a script
                {"kill": "calculator" or "program"}    ends a process as if it had failed
"""

import json
import os
import signal
import subprocess
import sys
import time

import uno
import unohelper
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException
from com.sun.star.task import XInteractionHandler
from com.sun.star.ucb import XCommandEnvironment

JOB = json.loads(sys.argv[1])
SECONDS_TO_START = 60
FORMATS = {".xlsx": "Calc MS Excel 2007 XML", ".ods": "calc8"}


class Approving(unohelper.Base, XInteractionHandler):
    """Says yes, as the person would who installs the extension."""

    def handle(self, request):
        for continuation in request.getContinuations():
            if continuation.queryInterface(uno.getTypeByName("com.sun.star.task.XInteractionApprove")):
                continuation.select()


class Silent(unohelper.Base, XCommandEnvironment):
    def getInteractionHandler(self):
        return Approving()

    def getProgressHandler(self):
        return None


def property_of(name, value):
    one = PropertyValue()
    one.Name = name
    one.Value = value
    return one


def connected(program, pipe):
    local = uno.getComponentContext()
    resolver = local.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", local)
    until = time.monotonic() + SECONDS_TO_START
    while True:
        try:
            return resolver.resolve("uno:pipe,name=%s;urp;StarOffice.ComponentContext" % pipe)
        except NoConnectException:
            if program.poll() is not None or time.monotonic() > until:
                raise
            time.sleep(0.1)


def install(context, file):
    manager = context.getValueByName("/singletons/com.sun.star.deployment.ExtensionManager")
    manager.addExtension(unohelper.systemPathToFileUrl(file), (), "user", None, Silent())


def cells_of(sheet):
    """Every value, a text or number, or the number of an error in a list, from the first cell on."""
    cursor = sheet.createCursor()
    cursor.gotoEndOfUsedArea(False)
    last = cursor.getRangeAddress()
    area = sheet.getCellRangeByPosition(0, 0, last.EndColumn, last.EndRow)
    return [
        [[sheet.getCellByPosition(x, y).getError()] if value is None else value for x, value in enumerate(row)]
        for y, row in enumerate(area.getDataArray())
    ]


def worked_out(desktop, step):
    book = opened(desktop, step["book"])
    try:
        book.calculateAll()
        sheets = {name: cells_of(book.Sheets.getByName(name)) for name in book.Sheets.ElementNames}
        if step["copy"] is not None:
            kind = property_of("FilterName", FORMATS[os.path.splitext(step["copy"])[1]])
            book.storeToURL(unohelper.systemPathToFileUrl(step["copy"]), (kind,))
        return {"sheets": sheets, "printed": {paper: laid_out(book, PAPERS[paper]) for paper in step["papers"]}}
    finally:
        book.close(True)


def filled(desktop, step):
    book = opened(desktop)
    try:
        sheet = book.Sheets.getByIndex(0)
        for place, text in step["formulas"]:
            cells = sheet.getCellRangeByName(place)
            if ":" in place:
                cells.setArrayFormula(text)
            else:
                cells.setFormula(text)
        until = time.monotonic() + SECONDS_TO_START
        while True:
            book.calculateAll()
            cells = cells_of(sheet)
            if step.get("until", "") in json.dumps(cells) or time.monotonic() > until:
                return cells
            time.sleep(0.05)
    finally:
        book.close(True)


# Short and long side, in hundredths of a millimetre.
PAPERS = {"A4": (21000, 29700), "Letter": (21590, 27940)}
ROUNDING = 2


def laid_out(book, sides):
    """The pages of the book, and for each sheet what begins pages, across and down, within what is used."""
    styles = book.StyleFamilies.getByName("PageStyles")
    sheets = [book.Sheets.getByName(name) for name in book.Sheets.ElementNames]
    for sheet in sheets:
        style = styles.getByName(sheet.PageStyle)
        wanted = tuple(reversed(sides)) if style.IsLandscape else sides
        # Each change lays the whole book out again, so both at once, and none to the paper that the book is for already.
        if max(abs(style.Width - wanted[0]), abs(style.Height - wanted[1])) > ROUNDING:
            style.setPropertyValues(("Width", "Height"), wanted)
    pages = book.getRendererCount(book, ())
    return {"pages": pages, "sheets": {sheet.Name: breaks_of(sheet) for sheet in sheets}}


def breaks_of(sheet):
    columns, rows = used(sheet)
    # Asked for its columns, the program breaks the sheet into pages anew; asked for its rows, it looks at a million.
    across = [each.Position for each in sheet.getColumnPageBreaks() if 0 < each.Position < columns]
    lines = sheet.Rows
    return {"across": across, "down": [row for row in range(1, rows) if lines.getByIndex(row).IsStartOfNewPage]}


def used(sheet):
    """How many columns and rows hold something, a picture over them too."""
    cursor = sheet.createCursor()
    cursor.gotoEndOfUsedArea(False)
    last = cursor.getRangeAddress()
    columns, rows = last.EndColumn + 1, last.EndRow + 1
    # Of what is outside the print area nothing is printed.
    for area in sheet.getPrintAreas():
        columns, rows = min(columns, area.EndColumn + 1), min(rows, area.EndRow + 1)
    for shape in sheet.DrawPage:
        # A cell's note is a picture too.
        if shape.ShapeType != "com.sun.star.drawing.OLE2Shape":
            continue
        right, bottom = shape.Position.X + shape.Size.Width, shape.Position.Y + shape.Size.Height
        while sheet.getCellByPosition(columns, 0).Position.X < right:
            columns += 1
        while sheet.getCellByPosition(0, rows).Position.Y < bottom:
            rows += 1
    return columns, rows


def opened(desktop, file=None):
    url = "private:factory/scalc" if file is None else unohelper.systemPathToFileUrl(file)
    return desktop.loadComponentFromURL(url, "_blank", 0, (property_of("Hidden", True),))


def calculators(program):
    """The processes of the extension, among those that this program started."""
    found = []
    for pid in filter(str.isdigit, os.listdir("/proc")):
        try:
            with open("/proc/%s/cmdline" % pid, encoding="utf-8") as file:
                words = file.read().split("\0")
            if os.getpgid(int(pid)) == program.pid and any(word.endswith("calculator.cjs") for word in words):
                found.append(int(pid))
        except (OSError, UnicodeDecodeError):
            pass
    return found


def killed(program, which):
    """How many calculating processes there were, and how many are left a little later."""
    before = calculators(program)
    if which == "calculator":
        for pid in before:
            os.kill(pid, signal.SIGKILL)
    else:
        for pid in soffice_of(program):
            os.kill(pid, signal.SIGKILL)
    until = time.monotonic() + 5
    while calculators(program) and time.monotonic() < until:
        time.sleep(0.05)
    return {"before": len(before), "after": len(calculators(program))}


def soffice_of(program):
    """The program itself and what holds it, without the processes of extensions."""
    found = []
    for pid in filter(str.isdigit, os.listdir("/proc")):
        try:
            if os.getpgid(int(pid)) == program.pid and int(pid) not in calculators(program):
                found.append(int(pid))
        except OSError:
            pass
    return found


def written(file, text):
    with open(file, "w", encoding="utf-8") as script:
        script.write(text)
    os.chmod(file, 0o755)


def done(context, desktop, program, step):
    if "install" in step:
        return install(context, step["install"])
    if "program" in step:
        return written(step["program"], step["text"])
    if "book" in step:
        return worked_out(desktop, step)
    return filled(desktop, step) if "formulas" in step else killed(program, step["kill"])


def main():
    pipe = "in-calc-%d" % os.getpid()
    profile = unohelper.systemPathToFileUrl(JOB["profile"])
    words = ["--headless", "--norestore", "--nologo", "--nodefault", "--accept=pipe,name=%s;urp" % pipe]
    program = subprocess.Popen(
        ["soffice", "-env:UserInstallation=" + profile, *words],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
    try:
        context = connected(program, pipe)
        desktop = context.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", context)
        for step in JOB["steps"]:
            print(json.dumps(done(context, desktop, program, step)), flush=True)
    finally:
        # The program, what it started, and nothing else.
        try:
            os.killpg(program.pid, signal.SIGKILL)
        except ProcessLookupError:
            pass
        program.wait()


main()
