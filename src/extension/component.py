"""The YARN functions in LibreOffice Calc: every call goes to one Node process, which is kept alive."""

import glob
import json
import os
import shutil
import struct
import subprocess
import sys
import threading
import time

import uno
import unohelper
from com.sun.star.awt import XCallback
from com.sun.star.lang import XServiceName
from com.sun.star.sheet import XAddIn

HERE = os.path.dirname(__file__)

with open(os.path.join(HERE, "extension.json"), encoding="utf-8") as file:
    EXTENSION = json.load(file)

SERVICE = EXTENSION["service"]
FUNCTIONS = {function["method"]: function for function in EXTENSION["functions"]}
WHY = EXTENSION["why"]
LEAST_NODE = tuple(EXTENSION["leastNode"])

# A call that takes longer is given up, and one that takes more memory: the limits of the library's commands.
SECONDS = 120
MEGABYTES = 2048

# A sheet may hold thousands of calls: a Node that could not be started is not looked for again for so many times as
# long as looking took, but for no more than so many seconds.
PATIENCE = 100
LONGEST_PAUSE = 10


class Unavailable(Exception):
    """There is no Node to ask."""


class Calculator:
    """The Node process: started when it is first asked, again when it has ended, and ended with this program."""

    def __init__(self):
        self.lock = threading.Lock()
        self.process = None
        self.asked_at = None
        self.unavailable = None
        self.unavailable_until = 0.0

    def rows(self, function_id, arguments):
        """The cells that a function gives; an error among them is a list of code and message."""
        line = json.dumps([function_id, arguments]).encode("ascii") + b"\n"
        with self.lock:
            # A process that ended since the last call is no fault of this one.
            for _ in range(2):
                answer = self.answer(line)
                if answer:
                    return json.loads(answer.decode("utf-8"), parse_int=float)
            return [[["#VALUE!", "the calculation was given up: it ended, or took longer than %d seconds" % SECONDS]]]

    def answer(self, line):
        if self.process is None:
            self.process = self.started()
        try:
            self.asked_at = time.monotonic()
            self.process.stdin.write(line)
            self.process.stdin.flush()
            answer = self.process.stdout.readline()
        except OSError:
            answer = b""
        finally:
            self.asked_at = None
        if not answer.endswith(b"\n"):
            self.process.kill()
            self.process.wait()
            self.process = None
            return b""
        return answer

    def started(self):
        began = time.monotonic()
        if self.unavailable and began < self.unavailable_until:
            raise Unavailable(self.unavailable)
        self.unavailable = None
        found = []
        for node in candidates():
            process, version = start(node)
            if version is not None and parts(version) >= LEAST_NODE:
                threading.Thread(target=self.watch, args=(process,), daemon=True).start()
                return process
            if process is not None:
                process.kill()
                process.wait()
            found.append("%s is %s" % (node, version or "no Node that starts"))
        needed = ".".join(str(part) for part in LEAST_NODE)
        self.unavailable = (
            "the YARN functions need Node.js %s or later, and %s; install it from nodejs.org and recalculate (Ctrl+Shift+F9)"
            % (needed, " and ".join(found) if found else "none was found")
        )
        ended = time.monotonic()
        self.unavailable_until = ended + min(LONGEST_PAUSE, PATIENCE * (ended - began))
        raise Unavailable(self.unavailable)

    def watch(self, process):
        """Ends a process that takes too long over one call."""
        while process.poll() is None:
            asked_at = self.asked_at
            if asked_at is not None and time.monotonic() - asked_at > SECONDS:
                process.kill()
                return
            time.sleep(1)


def start(node):
    """A process, and which Node it says it is."""
    try:
        process = subprocess.Popen(
            [node, "--max-old-space-size=%d" % MEGABYTES, os.path.join(HERE, "calculator.cjs")],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            # No console window on Windows.
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        )
    except OSError:
        return None, None
    try:
        return process, json.loads(process.stdout.readline().decode("utf-8"))
    except ValueError:
        return process, None


def candidates():
    """Where Node may be: programs started from a desktop often do not have the path of a terminal."""
    # Whoever names one in YARN_NODE means that one.
    if os.environ.get("YARN_NODE"):
        return [os.environ["YARN_NODE"]]
    home = os.path.expanduser("~")
    places = [shutil.which("node"), shutil.which("nodejs")]
    if sys.platform == "win32":
        for folder in ("ProgramFiles", "ProgramW6432", "LOCALAPPDATA"):
            base = os.environ.get(folder)
            if base:
                places.append(os.path.join(base, "nodejs", "node.exe"))
                places.append(os.path.join(base, "Programs", "nodejs", "node.exe"))
    else:
        places += ["/usr/local/bin/node", "/opt/homebrew/bin/node", "/opt/local/bin/node", "/usr/bin/node"]
        versions = glob.glob(os.path.join(home, ".nvm", "versions", "node", "*", "bin", "node"))
        places += sorted(versions, key=lambda place: parts(place.split(os.sep)[-3]), reverse=True)
    found = []
    for place in places:
        if place and os.path.isfile(place) and place not in found:
            found.append(place)
    return found


def parts(version):
    """v20.19.1 as (20, 19, 1)."""
    numbers = []
    for part in version.lstrip("v").split("-")[0].split("."):
        numbers.append(int(part) if part.isdigit() else 0)
    return tuple(numbers)


CALCULATOR = Calculator()

# Calc's numbers for the errors that cells can show (formula/inc/formula/errorcodes.hxx).
ERROR_NUMBERS = {
    "#NULL!": 521,
    "#DIV/0!": 532,
    "#VALUE!": 519,
    "#REF!": 524,
    "#NAME?": 525,
    "#NUM!": 503,
    "#N/A": 32767,
}


def error_value(code):
    """A number that is none, with Calc's number of the error in its low bits: the cell then shows that error."""
    bits = 0x7FF8000000000000 | ERROR_NUMBERS.get(code, ERROR_NUMBERS["#VALUE!"])
    return struct.unpack("<d", struct.pack("<Q", bits))[0]


def cell(value):
    """A value as Calc's cells can hold it: they have no truth, only numbers that are shown as such."""
    if isinstance(value, list):
        return error_value(value[0])
    return float(value) if isinstance(value, bool) else value


def one_cell(value):
    return ((value,),)


def argument(value):
    """A range is rows of cells; a blank cell is nothing."""
    if isinstance(value, tuple):
        return [[argument(one) for one in row] for row in value]
    return value


def asked(function_id, arguments):
    """The rows that a function gives; what was left out at the end is left out."""
    given = [argument(one) for one in arguments]
    while given and given[-1] is None:
        given.pop()
    return CALCULATOR.rows(function_id, given)


class Functions(unohelper.Base, XAddIn, XServiceName, uno.getClass(EXTENSION["interface"])):
    def __init__(self, context):
        self.context = context
        self.locale = uno.createUnoStruct("com.sun.star.lang.Locale", "en", "US", "")

    # Every function of the library is a method of this component.
    def __getattr__(self, name):
        function = FUNCTIONS.get(name)
        if function is None:
            raise AttributeError(name)
        if name == WHY:
            return self.why
        return lambda *arguments: self.result(function["id"], arguments)

    def result(self, function_id, arguments):
        try:
            rows = asked(function_id, arguments)
        except Unavailable as fault:
            tell_once(self.context, str(fault))
            return one_cell(error_value("#VALUE!"))
        return tuple(tuple(cell(value) for value in row) for row in rows)

    def why(self, name=None, *arguments):
        return one_cell(self.message(name, arguments))

    def message(self, name, arguments):
        """The message behind the error of a call: Calc's cells have room for an error's name only."""
        function_id = str(name or "").strip().upper()
        if function_id.startswith(SERVICE + "."):
            function_id = function_id[len(SERVICE) + 1 :]
        try:
            if function_id == "":
                # With nothing asked, whether there is anybody to ask.
                asked("VERSION", ())
                return ""
            if function_id.lower() not in FUNCTIONS or function_id.lower() == WHY:
                return "there is no function %s.%s" % (SERVICE, function_id)
            rows = asked(function_id, arguments)
        except Unavailable as fault:
            return str(fault)
        faults = [
            (row, column, value)
            for row, cells in enumerate(rows)
            for column, value in enumerate(cells)
            if isinstance(value, list)
        ]
        if not faults:
            return ""
        row, column, (code, message) = faults[0]
        place = "" if len(rows) == 1 and len(rows[0]) == 1 else "row %d, column %d: " % (row + 1, column + 1)
        more = " (and %d more)" % (len(faults) - 1) if len(faults) > 1 else ""
        return place + (message or code) + more

    # XServiceName
    def getServiceName(self):
        return SERVICE

    # XLocalizable
    def setLocale(self, locale):
        self.locale = locale

    def getLocale(self):
        return self.locale

    # XAddIn
    def getProgrammaticFuntionName(self, display):
        return display[len(SERVICE) + 1 :].lower()

    def getDisplayFunctionName(self, method):
        return "%s.%s" % (SERVICE, FUNCTIONS[method]["id"]) if method in FUNCTIONS else method

    def getFunctionDescription(self, method):
        return FUNCTIONS[method]["description"] if method in FUNCTIONS else ""

    def getDisplayArgumentName(self, method, place):
        return self.parameter(method, place).get("name", "")

    def getArgumentDescription(self, method, place):
        return self.parameter(method, place).get("description", "")

    def getProgrammaticCategoryName(self, method):
        return "Add-In"

    def getDisplayCategoryName(self, method):
        return SERVICE

    def parameter(self, method, place):
        parameters = FUNCTIONS.get(method, {}).get("parameters", [])
        return parameters[place] if 0 <= place < len(parameters) else {}


TOLD = set()


def tell_once(context, text):
    """Says once a session what is missing, after the calculation and not in the middle of it."""
    if text in TOLD:
        return
    TOLD.add(text)
    later = context.ServiceManager.createInstanceWithContext("com.sun.star.awt.AsyncCallback", context)
    later.addCallback(Notice(context, text), None)


class Notice(unohelper.Base, XCallback):
    def __init__(self, context, text):
        self.context = context
        self.text = text

    def notify(self, _):
        manager = self.context.ServiceManager
        desktop = manager.createInstanceWithContext("com.sun.star.frame.Desktop", self.context)
        frame = desktop.getCurrentFrame()
        # Without a window there is nobody to tell; WHY() tells it in a cell.
        if frame is None or not frame.getContainerWindow().isVisible():
            return
        toolkit = manager.createInstanceWithContext("com.sun.star.awt.Toolkit", self.context)
        kind = uno.Enum("com.sun.star.awt.MessageBoxType", "WARNINGBOX")
        text = self.text[0].upper() + self.text[1:] + "."
        toolkit.createMessageBox(frame.getContainerWindow(), kind, 1, "YARN functions", text).execute()


g_ImplementationHelper = unohelper.ImplementationHelper()
g_ImplementationHelper.addImplementation(Functions, SERVICE, (SERVICE, "com.sun.star.sheet.AddIn"))
