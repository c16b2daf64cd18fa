"""
Three costing books as people build them who never heard of this library: their own headings in their own order, titles
over merged cells, spare rows, remarks, totals at the foot. All people, firms, wares and figures are invented.

    python3 -m venv books && books/bin/pip install xlsxwriter==3.2.9 openpyxl==3.1.5
    books/bin/python tests/strangers/make-books.py

XlsxWriter writes the files; LibreOffice works out the native formulas, and its figures are saved beside them. Calls of
YARN are saved as Excel saves them where the functions are not there: in their stored form, showing #NAME?.
"""

import datetime
import os
import re
import subprocess
import tempfile

import openpyxl
import xlsxwriter

HERE = os.path.dirname(os.path.abspath(__file__))
DAY = datetime.date


class Book:
    """A workbook under construction; `saved` holds what native formulas show."""

    def __init__(self, file, saved):
        self.saved = saved
        self.book = xlsxwriter.Workbook(file, {"use_future_functions": True, "default_date_format": "dd.mm.yyyy"})
        self.book.set_properties({"created": datetime.datetime(2026, 1, 1)})
        form = self.book.add_format
        self.title = form({"bold": True, "font_size": 14, "align": "center"})
        self.head = form({"bold": True, "bottom": 1, "text_wrap": True})
        self.formats = {
            "%": form({"num_format": "0.00%"}),
            "date": form({"num_format": "dd.mm.yyyy"}),
            "money": form({"num_format": "#,##0.00"}),
        }

    def sheet(self, name):
        return Sheet(self, self.book.add_worksheet(name))

    def close(self):
        self.book.close()


class Sheet:
    def __init__(self, book, sheet):
        self.book, self.sheet, self.name = book, sheet, sheet.get_name()
        sheet.set_column("A:A", 26)
        sheet.set_column("B:Z", 13)

    def merged(self, area, text):
        self.sheet.merge_range(area, text, self.book.title)

    def rows(self, first, rows, forms=()):
        """Rows of cells from the cell `first` on; None is a blank. Texts that begin with "=" are formulas."""
        top, left = position(first)
        for down, row in enumerate(rows):
            for along, value in enumerate(row):
                form = self.book.formats.get(forms[along]) if along < len(forms) else None
                self.put(top + down, left + along, value, form)

    def head(self, first, headings):
        top, left = position(first)
        for along, heading in enumerate(headings):
            self.put(top, left + along, heading, self.book.head)

    def put(self, row, column, value, form=None):
        if value is None:
            return
        if isinstance(value, str) and value.startswith("="):
            self.formula(row, column, value, form)
        elif isinstance(value, DAY):
            self.sheet.write_datetime(row, column, datetime.datetime(value.year, value.month, value.day), form)
        else:
            self.sheet.write(row, column, value, form)

    def formula(self, row, column, typed, form=None):
        if "YARN." in typed:
            stored = typed.replace("YARN.", "_xldudf_YARN_")
            self.sheet.write_dynamic_array_formula(row, column, row, column, stored, form, "#NAME?")
            return
        saved = self.book.saved.get((self.name, row, column), 0)
        self.sheet.write_formula(row, column, typed, form, saved)

    def calls(self, first, calls):
        """Calls one below the other, each with what it is about in the column before and room for its result."""
        top, left = position(first)
        for about, room, typed in calls:
            self.put(top, left - 1, about)
            self.formula(top, left, typed)
            top += room + 1


def position(address):
    letters, digits = re.match(r"([A-Z]+)(\d+)$", address).groups()
    column = 0
    for letter in letters:
        column = column * 26 + ord(letter) - 64
    return int(digits) - 1, column - 1


# ---------------------------------------------------------------------------------------------------------------------


def order_costing(file, saved):
    """The accountant of a buyer: an order for aran yarn from greasy wool to the landed skein. Invented."""
    book = Book(file, saved)

    process = book.sheet("Process")
    process.merged("A1:L1", "Order 2231, aran 10/4: contract processing (all invented)")
    process.merged("A2:L2", "masses in kg, money in EUR; spare rows for more processes")
    process.head(
        "A4",
        ["No.", "Operation", "Remarks", "Noil (share)", "Regain after (%)", "Waste (%)", "Price of by-product (EUR/kg)",
         "Charged by", "Minimum charge (EUR)", "Tariff (EUR)", "Set-up (EUR)", "Lot capacity (kg)"],
    )  # fmt: skip
    forms = ["", "", "", "%", "%", "%", "money", "", "money", "money", "money"]
    process.rows(
        "A5",
        [
            [1, "scour", "mill A", None, 0.16, 0.42, None, "per in", None, 0.9, None, None],
            [None] * 12,
            [2, "comb", "noil comes back", 0.08, 0.1825, 0.02, 2.4, "per out", 900, 1.35, None, None],
            [3, "dye in top", "mill B", None, 0.17, 0.015, None, "per lot", None, 180, 45, 150],
            [4, "spin and fold", "2 per cent on order", None, 0.1825, 0.05, None, "per out", None, 4.2, 60, None],
        ],
        forms,
    )
    process.rows("B14", [["Total"]])
    process.rows("K14", [["=SUM(K5:K13)"]], ["money"])
    process.head("A17", ["Stage", "Waste (+/-)", "Charge rate (+/-)", "Remark"])
    process.rows("A18", [["scour", 0.02, None, "core test"], [None] * 4, ["spin and fold", None, 0.3, "offer"]])

    quotes = book.sheet("Offers")
    quotes.merged("A1:I1", "Offers for spinning (invented)")
    headings = ["Supplier", "Valid until", "Charge rate", "Charged by", "Process loss", "Fixed charge", "Min. charge", "Comment"]
    offers = [
        ["Mill in the valley", DAY(2026, 6, 30), 4.2, "per out", 0.05, 60, 300, ""],
        ["Mill at the bridge", DAY(2026, 5, 31), 3.6, "per in", 0.08, 240, None, "new frames"],
        ["Mill by the sea", DAY(2026, 12, 31), 5.1, "per out", 0.03, None, None, ""],
    ]
    quotes.sheet.add_table(
        "A3:H7",
        {"name": "Offers", "style": "Table Style Light 1", "columns": [{"header": heading} for heading in headings]},
    )
    quotes.rows("A4", offers, ["", "date", "money", "", "%", "money", "money"])

    rates = book.sheet("Rates")
    rates.merged("A1:E1", "Rates of exchange, from the bank's letters (invented)")
    rates.head("A3", ["Source", "Rate of exchange", "Valid from", "From currency", "Into"])
    rates.rows(
        "A4",
        [
            ["letter 3", 0.905, DAY(2026, 3, 2), "USD", "EUR"],
            ["letter 1", 0.92, DAY(2026, 1, 5), "USD", "EUR"],
            [None] * 5,
            ["letter 2", 0.915, DAY(2026, 2, 2), "USD", "EUR"],
            ["letter 2", 1.17, DAY(2026, 2, 16), "GBP", "EUR"],
            [None] * 5,
        ],
        ["", "", "date"],
    )
    rates.head("G3", ["Date", "USD", "GBP"])
    rates.rows("G4", [[DAY(2026, 1, 5), 0.92, 1.16], [DAY(2026, 2, 2), 0.915, 1.17]], ["date"])
    rates.head("A13", ["Invoice (USD)", "Paid on"])
    rates.rows(
        "A14",
        [[12500, DAY(2026, 1, 20)], [None, None], [800.5, DAY(2026, 2, 2)], [3200, DAY(2026, 4, 1)]],
        ["money", "date"],
    )

    shipment = book.sheet("Shipment")
    shipment.merged("A1:G1", "Shipment 7 (invented)")
    shipment.head("A3", ["Article", "Invoice value (USD)", "Qty", "Unit", "Net weight (kg)", "cbm", "Duty (USD)"])
    lines = [
        ["aran, natural", 4200, 300, "skeins", 30, 0.24, 168],
        ["aran, moss", 2100, 150, "skeins", 15, 0.12, 84],
        [None] * 7,
        ["lace, slate", 3700, 370, "skeins", 18.5, 0.16, 0],
    ]
    shipment.rows("A4", lines, ["", "money", "", "", "", "", "money"])
    shipment.rows("B9", [["=SUM(B4:B8)", "=SUM(C4:C8)", None, "=SUM(E4:E8)", "=SUM(F4:F8)", "=SUM(G4:G8)"]])
    shipment.head("A12", ["Charge", "Remark", "Amount (USD)", "Shared by"])
    shipment.rows(
        "A13",
        [
            ["Freight", "by road", 254, "mass"],
            ["Insurance", "", 55, "value"],
            ["Handling", "flat", 90, "equal"],
            ["Duty", "see the lines", None, "own"],
            [None] * 4,
            ["Total", "", "=SUM(C13:C16)", None],
        ],
    )

    store = book.sheet("Store")
    store.merged("A1:G1", "Store card: wool top (invented)")
    store.head("A3", ["Date", "Document", "Price per unit", "Qty", "Net value", "Event", "Remark"])
    movements = [
        [DAY(2026, 1, 2), "opening", 9.5, 400, None, None, "count of 31 December"],
        [DAY(2026, 1, 15), "GR 17", 10.4, 250, None, None, ""],
        [None] * 7,
        [DAY(2026, 1, 20), "issue 4", None, -300, None, None, ""],
        [DAY(2026, 1, 28), "freight", None, None, 70, "late charge", "for GR 17"],
        [DAY(2026, 2, 3), "issue 5", None, -200, None, None, ""],
    ]
    store.rows("A4", movements, ["date", "", "money", "", "money"])
    store.head("I3", ["Date", "In (kg)", "Out (kg)", "Cost"])
    store.rows("I4", [[DAY(2026, 1, 2), 400, None, 9.5], [DAY(2026, 1, 20), None, 300, None]], ["date"])

    plan = book.sheet("Plan")
    plan.merged("A1:D1", "When must it start? (invented)")
    plan.head("A3", ["Job", "Who", "Depends on", "Working days"])
    plan.rows(
        "A4",
        [
            ["scour", "mill A", None, 3],
            ["comb", "mill A", "scour", 4],
            [None] * 4,
            ["labels", "printer", None, 10],
            ["spin", "mill B", "comb", 8],
            ["pack", "we", "spin, labels", 2],
        ],
    )
    plan.rows("A12", [["Start", DAY(2026, 3, 2)], ["Holidays", DAY(2026, 3, 17)], [None, None]], ["", "date"])

    calls = book.sheet("Calls")
    calls.merged("A1:H1", "Asked of the functions")
    calls.rows("A2", [["quantity (kg)", 1000], ["greasy price (EUR/kg)", 3.1]])
    calls.calls(
        "B5",
        [
            ["route, forward", 10, '=YARN.ROUTE(B2,Process!A4:L13,"made")'],
            ["route, back", 10, '=YARN.ROUTE(500,Process!A4:L13,"needed")'],
            ["route, columns picked", 10, '=YARN.ROUTE(B2,Process!B4:F9,"made")'],
            ["cost", 8, '=YARN.ROUTECOST(B2,Process!A4:L13,"made",B3)'],
            ["cost per kg, one cell", 1, '=INDEX(YARN.ROUTECOST(B2,Process!A4:L13,"made",B3),7,7)'],
            ["with the foot", 1, '=YARN.ROUTECOST(B2,Process!A4:L14,"made",B3)'],
            ["with the title", 1, '=YARN.ROUTE(B2,Process!A1:L13,"made")'],
            ["without the headings", 1, '=YARN.ROUTE(B2,Process!A5:L13,"made")'],
            ["known to", 6, '=YARN.COSTSPREAD(B2,Process!A4:L9,Process!A17:D20,"made",B3)'],
            ["offers", 5, "=YARN.QUOTES(350,Offers[#All],9.8)"],
            ["offers, columns only", 1, "=YARN.QUOTES(350,Offers[],9.8)"],
            ["paid in EUR", 5, '=YARN.EXCHANGE(Rates!A14:A17,"USD","EUR",Rates!B14:B17,Rates!A3:E11)'],
            ["two currencies", 2, '=YARN.EXCHANGE(100,{"USD","GBP"},"EUR",DATE(2026,2,20),Rates!A3:E11)'],
            ["rates side by side", 1, '=YARN.EXCHANGE(100,"USD","EUR",DATE(2026,2,20),Rates!G3:I5)'],
            ["landed", 7, "=YARN.LANDED(Shipment!A3:G7,Shipment!A12:D17)"],
            ["landed with the foot", 1, "=YARN.LANDED(Shipment!A3:G9,Shipment!A12:D16)"],
            ["charges with the foot", 1, "=YARN.LANDED(Shipment!A3:G7,Shipment!A12:D18)"],
            ["store, average", 8, '=YARN.STOCKLEDGER(Store!A3:G9,"average")'],
            ["store, fifo", 8, '=YARN.STOCKLEDGER(Store!A3:G12,"fifo")'],
            ["in and out apart", 1, '=YARN.STOCKLEDGER(Store!I3:L5,"fifo")'],
            ["plan", 8, '=YARN.TIMEPLAN(Plan!A3:D10,Plan!B12,"from",Plan!B13:B14)'],
            ["duty", 5, "=YARN.DUTY(Shipment!B4:B7,Shipment!C4:C7,4%)"],
            ["chargeable", 5, "=YARN.CHARGEABLE(Shipment!E4:E7,Shipment!F4:F7)"],
            ["price", 2, "=YARN.PRICEFORMARGIN({8.4;9.1},{40%,50%})"],
            ["premium", 1, "=YARN.INSURANCE(SUM(Shipment!B4:B7)+Shipment!C13,0.5%)"],
            ["freight shared", 5, "=YARN.APPORTION(Shipment!C13,Shipment!E4:E7)"],
            ["fees shared, by name", 5, "=YARN.APPORTION(100,Shipment!I4:J7)"],
            ["counts", 6, '=YARN.COUNT(D136:D140,"Nm",E135:F135)'],
            ["spread with a stage that is none", 1, '=YARN.COSTSPREAD(B2,Process!A4:L9,{"stage","rate";"Comb 2",0.1},"made",B3)'],
            ["a task that is none", 1, '=YARN.TIMEPLAN({"Task","Days","After";"spin",3,"carding"},46083,"from")'],
        ],
    )
    calls.rows("D135", [[None, "tex", "NeW"], [28], [None], [36], [None], [16.8]])
    shipment.head("I3", ["Article", "Weight"])
    shipment.rows("I4", [["aran, natural", 30], ["aran, moss", 15], [None, None], ["lace, slate", 18.5]])

    hand = book.sheet("By hand")
    hand.merged("A1:H1", "The same with the sheet's own arithmetic")
    hand.head("A2", ["stage", "dry in", "dry out", "mass out", "charge", "credit", "cost so far", "lots"])
    previous = {"dry": "Calls!B2", "mass": "Calls!B2", "cost": "ROUND(Calls!B2*Calls!B3,2)"}
    for at, row in enumerate([5, 7, 8, 9], start=3):
        cell = lambda letter: f"Process!{letter}{row}"
        basis = {5: previous["mass"], 7: f"D{at}", 8: f"H{at}", 9: f"D{at}"}[row]
        hand.rows(
            f"A{at}",
            [
                [
                    f"={cell('B')}",
                    f"={previous['dry']}",
                    f"=B{at}*(1-{cell('F')}-{cell('D')})",
                    f"=C{at}*(1+{cell('E')})",
                    f"=ROUND(MAX({cell('J')}*{basis},{cell('I')})+{cell('K')}*H{at},2)",
                    f"=ROUND(B{at}*{cell('D')}*(1+{cell('E')})*{cell('G')},2)",
                    f"={previous['cost']}+E{at}-F{at}",
                    f"=IF({cell('L')}>0,ROUNDUP({previous['mass']}/{cell('L')},0),1)",
                ]
            ],
        )
        previous = {"dry": f"C{at}", "mass": f"D{at}", "cost": f"G{at}"}
    hand.rows("A8", [["cost per kg", "=G6/D6"], ["greasy for 500 kg", "=500*Calls!B2/D6"]])
    hand.rows(
        "A11",
        [
            ["paid", "=Rates!A14*Rates!B5", None, "=Rates!A16*Rates!B7", "=Rates!A17*Rates!B4"],
            ["GBP", "=100*Rates!B8"],
            ["freight", "=ROUND(254*30/63.5,2)", "=ROUND(254*15/63.5,2)", "=ROUND(254*18.5/63.5,2)"],
            ["insurance", "=ROUND(55*B16/10000,2)", "=ROUND(55*C16/10000,2)", "=ROUND(55*D16/10000,2)"],
            ["landed", "=B16+B13+B14+30+168", "=C16+C13+C14+30+84", "=D16+D13+D14+30+0"],
            ["value", "=Shipment!B4", "=Shipment!B5", "=Shipment!B7"],
            ["per skein", "=B15/300", "=C15/150", "=D15/370"],
        ],
    )
    hand.rows(
        "A19",
        [
            ["value, average", "=400*9.5+250*10.4", "=B19-300*B19/650", "=C19+70", "=D19-200*D19/350"],
            ["value, fifo", "=400*9.5+250*10.4", "=B20-300*9.5", None, "=C20+70"],
            ["pack starts", "=WORKDAY(Plan!B12,15,Plan!B13:B14)"],
            ["offer of the valley", "=9.8/(1-5%)+(MAX(4.2*350,300)+60)/350"],
            ["offer of the bridge", "=9.8/(1-8%)+(3.6*350/(1-8%)+240)/350"],
            ["offer of the sea", "=9.8/(1-3%)+5.1"],
            ["chargeable", "=MAX(30,0.24*1000000/6000)", "=MAX(15,0.12*1000000/6000)", "=MAX(18.5,0.16*1000000/6000)"],
            ["prices", "=8.4/0.6", "=8.4/0.5", "=9.1/0.6", "=9.1/0.5"],
            ["premium", "=(10000+254)*1.1*0.5%"],
            ["spin tariff", "=B8-0.3", "=B8+0.3"],
            ["tex", "=1000/28", "=1000/36", "=1000/16.8"],
            ["NeW", "=28*453.59237/(560*0.9144)", "=36*453.59237/(560*0.9144)", "=16.8*453.59237/(560*0.9144)"],
            ["fees", "=ROUND(100*30/63.5,2)+0.01", "=ROUND(100*15/63.5,2)", "=ROUND(100*18.5/63.5,2)"],
        ],
    )
    book.close()


def german_mill(file, saved):
    """A mill where figures come out of another program as text, with decimal commas; tables lie on their side. Invented."""
    book = Book(file, saved)

    chain = book.sheet("Kette")
    chain.merged("A1:F1", "Musterkette, frei erfunden")
    chain.rows(
        "A3",
        [
            ["Stage", "scour", "card", "spin", "wind"],
            ["Process loss", 0.4, 0.06, 0.05, 0.01],
            ["Moisture regain", 0.16, 0.17, 0.17, 0.17],
            ["Noil", None, 0.02, None, None],
            ["Remark", "Lohn", "Lohn", "eigen", "eigen"],
        ],
    )
    chain.rows("A10", [["scour", 0.4, 0.16, None], ["-- ab hier im eigenen Haus --", None, None, None], ["spin", 0.05, 0.17, None]])
    chain.head("A15", ["Arbeitsgang", "Verlust", "Feuchte", "Abgang"])
    chain.rows("A16", [["Waschen", 0.4, 0.16, 0], ["Spinnen", 0.05, 0.17, 0]])
    chain.head("A20", ["Process", "Proces loss", "Regain"])
    chain.rows("A21", [["scour", 0.4, 0.16], ["spin", 0.05, 0.17]])
    chain.head("A25", ["Process", "Process loss (%)", "Waste", "Regain"])
    chain.rows("A26", [["scour", 0.4, 0.4, 0.16], ["spin", 0.05, 0.05, 0.17]])

    text = book.sheet("Aus dem ERP")
    text.merged("A1:E1", "Ausgabe als Text (erfunden)")
    text.head("A3", ["Garn", "Nm", "Feuchte", "Menge", "Satz ab"])
    text.rows(
        "A4",
        [
            ["A", "28,5", "18,25 %", "1.250,5", "01.03.2026"],
            ["B", "36", "17 %", "800", "02.03.2026"],
            ["C", "16,8", "16,0%", "90,25", "03.03.2026"],
        ],
    )
    text.head("G3", ["Date", "From", "To", "Rate"])
    text.rows("G4", [["01.03.2026", "CHF", "EUR", 1.05], ["02.03.2026", "CHF", "EUR", 1.06]])
    text.rows("A9", [["R 69,3 tex Z 400 / 2 S 600; 34 tex"], ["28/2 Nm S 350"]])

    draw = book.sheet("Strecken")
    draw.merged("A1:E1", "Streckenplan (erfunden)")
    draw.head("A3", ["Passage", "Ends up", "Drafts", "Waste (%)", "Bemerkung"])
    draw.rows("A4", [["gill 1", 8, 7.5, 0.01, ""], ["gill 2", 6, 8, None, ""], [None] * 5, ["finisher", 4, 10, 0.005, "neu"]])
    draw.rows("A10", [["gill 1", 8, 7.5], ["gill 2", 6, 8]])

    lots = book.sheet("Partien")
    lots.merged("A1:F1", "Partien (erfunden)")
    lots.head("A3", ["Lot", "Net (kg)", "Yield", "Micron", "Regain", "Price"])
    lots.rows(
        "A4",
        [
            ["K 17", 1200, 0.62, 21.5, 0.16, 9.1],
            ["K 18", 800, 0.58, 23.0, 0.165, 8.2],
            [None] * 6,
            ["K 21", 2000, 0.66, 19.8, 0.17, 11.4],
            ["Summe", "=SUM(B4:B7)", None, None, None, None],
        ],
        ["", "", "%"],
    )
    lots.rows("A12", [["Kostenstelle", "Kardierte m²"], ["Wäscherei", 120], ["Kämmerei", 310], ["Spinnerei", 570], ["Summe", "=SUM(B13:B15)"]])
    lots.rows("D12", [["Produkt", "Menge", "Preis"], ["Zug", 900, 12], ["Kämmling", 100, 4]])

    frage = book.sheet("Fragen")
    frage.rows("A1", [["Menge", 1000]])
    frage.calls(
        "B3",
        [
            ["gekippt", 7, '=YARN.ROUTE(B1,TRANSPOSE(Kette!A3:E7),"made")'],
            ["gekippt, so wie sie liegt", 1, '=YARN.ROUTE(B1,Kette!A3:E7,"made")'],
            ["mit Zwischenzeile", 1, '=YARN.ROUTE(B1,Kette!A10:D12,"made")'],
            ["deutsche Köpfe", 1, '=YARN.ROUTE(B1,Kette!A15:D17,"made")'],
            ["ohne Köpfe", 4, '=YARN.ROUTE(B1,Kette!A16:D17,"made")'],
            ["verschrieben", 1, '=YARN.ROUTE(B1,Kette!A20:C22,"made")'],
            ["zweimal", 1, '=YARN.ROUTE(B1,Kette!A25:D27,"made")'],
            ["Text als Zahl", 4, "=YARN.COUNT('Aus dem ERP'!B4:B6,\"Nm\",\"NeW\")"],
            ["umgewandelt", 4, "=YARN.COUNT(NUMBERVALUE('Aus dem ERP'!B4:B6,\",\",\".\"),\"Nm\",{\"tex\",\"NeW\"})"],
            ["Feuchte als Text", 4, "=YARN.DRYMASS(1000,'Aus dem ERP'!C4:C6)"],
            [
                "umgewandelt",
                4,
                "=YARN.DRYMASS(NUMBERVALUE('Aus dem ERP'!D4:D6,\",\",\".\"),NUMBERVALUE('Aus dem ERP'!C4:C6,\",\",\".\"))",
            ],
            ["Datum als Text", 1, "=YARN.EXCHANGE(100,\"CHF\",\"EUR\",DATE(2026,3,5),'Aus dem ERP'!G3:J5)"],
            ["Bezeichnung", 2, "=YARN.DESIGNATION('Aus dem ERP'!A9:A10,{\"resultant\",\"plies\"})"],
            ["Strecken", 6, '=YARN.DRAFTPLAN(20,"ktex",Strecken!A3:E7)'],
            ["Strecken, Namen davor", 4, '=YARN.DRAFTPLAN(20,"ktex",Strecken!A10:C11)'],
            ["mittlere Ausbeute", 1, "=YARN.COMBINEDYIELD(Partien!A4:B7,Partien!C4:C7)"],
            ["mit Summe", 1, "=YARN.COMBINEDYIELD(Partien!A4:B8,Partien!C4:C8)"],
            ["Feinheit der Mischung", 1, "=YARN.BLENDMICRON(Partien!B4:B5,Partien!D4:D5)"],
            ["Feuchte der Mischung, mit Namen", 1, '=YARN.BLENDREGAIN(D90:E92,Partien!A3:F7,"dry")'],
            ["Umlage, mit Namen", 4, "=YARN.APPORTION(1000,Partien!A13:B15)"],
            ["Umlage, mit Köpfen und Summe", 1, "=YARN.APPORTION(1000,Partien!A12:B16)"],
            ["Kuppelprodukte", 3, "=YARN.JOINTCOST(8000,Partien!D13:E14,Partien!F13:F14)"],
            ["je Strang", 2, "=YARN.SKEINS(B1,{0.05,0.1})"],
            ["Bestellmenge", 4, '=YARN.TIERED({40;60},{0;50},{8;6.5},{"all units","next break"})'],
        ],
    )
    frage.rows("D90", [["K 21", 0.5], ["K 17", 0.3], ["K 18", 0.2]], ["", "%"])

    hand = book.sheet("Von Hand")
    hand.rows(
        "A1",
        [
            ["dry", "=Fragen!B1*(1-Kette!B4)", "=B1*(1-Kette!C4-Kette!C6)", "=C1*(1-Kette!D4)", "=D1*(1-Kette!E4)"],
            ["mass", "=B1*1.16", "=C1*1.17", "=D1*1.17", "=E1*1.17"],
            ["zwei Stufen", "=1000*0.6*0.95*1.17"],
            ["tex", "=1000/28.5", "=1000/36", "=1000/16.8"],
            ["NeW", "=28.5*453.59237/(560*0.9144)", "=36*453.59237/(560*0.9144)", "=16.8*453.59237/(560*0.9144)"],
            ["trocken", "=1250.5/1.1825", "=800/1.17", "=90.25/1.16"],
            ["tex aus 28/2 Nm", "=2000/28"],
            ["ktex", "=20*8*0.99/7.5", "=B8*6/8", "=C8*4*0.995/10"],
            ["ohne Abfall", "=20*8/7.5", "=B9*6/8"],
            ["Ausbeute", "=(1200*62%+800*58%+2000*66%)/4000"],
            ["Micron", None],
            ["Feuchte", "=0.5*Partien!E7+0.3*Partien!E4+0.2*Partien!E5"],
            ["Umlage", "=1000*12%", "=1000*31%", "=1000*57%"],
            ["Kuppel", "=ROUND(8000*10800/11200,2)", "=ROUND(8000*400/11200,2)"],
            ["Staffel", "=40*8", "=MIN(40*8,50*6.5)", "=60*6.5"],
        ],
    )
    book.close()


def dyehouse(file, saved):
    """The colour kitchen's book: solids, recipes and stock under their names. Invented."""
    book = Book(file, saved)

    solids = book.sheet("Solids")
    solids.merged("A1:G1", "Dyed tops in the store (invented)")
    solids.head("A3", ["Dyed on", "Shade", "a*", "b*", "L*", "In stock (kg)", "Price per kg (EUR)", "Remark"])
    solids.rows(
        "A4",
        [
            [DAY(2026, 1, 12), "natural", 0, 8, 85, 120, 9.5, "undyed"],
            [DAY(2026, 1, 14), "moss", -18, 15, 45, 60, 13.2, ""],
            [None] * 8,
            [DAY(2026, 1, 20), "slate", 1, -9, 38, 45, 12.4, "two lots"],
            [DAY(2026, 2, 2), "rust", 32, 30, 42, 30, 14.1, ""],
            [None] * 8,
            [None] * 8,
        ],
        ["date"],
    )

    recipes = book.sheet("Recipes")
    recipes.merged("A1:G1", "Recipes of the season (invented)")
    recipes.head("A3", ["Colourway", "moss", "natural", "rust", "slate", "Total"])
    forms = ["", "%", "%", "%", "%", "%"]
    recipes.rows("A4", [["Heath", 0.5, 0.3, None, 0.2, "=SUM(B4:E4)"], ["Tarn", None, 0.2, None, 0.8, "=SUM(B5:E5)"]], forms)
    recipes.rows("A7", [["Ember", 0.1, 0.2, 0.7, None, "=SUM(B7:E7)"]], forms)
    recipes.head("H3", ["Colourway", "kg wanted", "Value"])
    recipes.rows("H4", [["Ember", 30, 21], ["Heath", 90, 18], ["Tarn", 40, 17.5], ["Total", "=SUM(I4:I6)", None]])
    recipes.head("A11", ["Component", "Share", "Regain"])
    recipes.rows("A12", [["moss", 0.5, 0.17], ["natural", 0.3, 0.16], [None, None, None], ["slate", 0.2, 0.175]], ["", "%", "%"])

    wool = book.sheet("Wool")
    wool.merged("A1:F1", "Lots on offer (invented)")
    wool.head("A3", ["Lot", "Price (EUR/kg)", "Remark"])
    wool.rows("A4", [["fine", 12, ""], ["middle", 9, "late"], ["strong", 7, ""]])
    wool.head("E3", ["", "hauteur", "micron"])
    wool.rows("E4", [["strong", 60, 24], ["fine", 70, 19], ["middle", 65, 21]])
    wool.rows("E9", [["", "micron", "hauteur"], ["max", 20.5, None], ["min", None, 60]])

    tests = book.sheet("Lots")
    tests.merged("A1:E1", "Dye lots against the standard (invented)")
    tests.head("A3", ["Lot", "L*", "a*", "b*", "Seen by"])
    tests.rows("A4", [["standard", 60, 0, 10, ""], ["0417", 58, 0, 12, "day shift"], ["0418", 60.4, 0, 10, ""], [None] * 5])
    tests.rows("A10", [["dye", "share"], ["blue", 0.02], ["yellow", 0.005]])

    ask = book.sheet("Asked")
    ask.calls(
        "B2",
        [
            ["kg of solids", 3, "=YARN.MIXNEED(Recipes!A3:E7,Recipes!H3:J6)"],
            ["with the total column", 1, "=YARN.MIXNEED(Recipes!A3:F7,Recipes!H3:J6)"],
            ["with the foot", 1, "=YARN.MIXNEED(Recipes!A3:E7,Recipes!H3:J7)"],
            ["kg by kg in the order of the recipes", 3, "=YARN.MIXNEED(Recipes!A3:E7,{90;40;30})"],
            ["what the stock makes", 5, "=YARN.MIXSTOCK(Recipes!A3:E7,Solids!A3:H10,Recipes!H3:J6)"],
            ["shades", 5, "=YARN.MIXSHADE(Recipes!A3:E7,Solids!A3:H10)"],
            ["recipe of a shade", 3, "=YARN.MIXMATCH(C20:E20,Solids!A3:H10)"],
            ["recipes of shades", 5, "=YARN.MIXMATCH(YARN.MIXSHADE(Recipes!A3:E7,Solids!A3:H10),Solids!A3:H10)"],
            ["there and back", 3, "=YARN.MIXNEED(YARN.MIXMATCH(YARN.MIXSHADE(Recipes!A3:E7,Solids!A3:H10),Solids!A3:H10),Recipes!H3:J6)"],
            ["choices with prices", 7, "=YARN.MIXCHOICES({50,5,5},Solids!A3:H10,,,,,,Solids!A3:H10)"],
            ["pure", 7, '=YARN.MIXCHOICES({42,32,30},Solids!A3:H10,1,,,,,Solids!A3:H10,1)'],
            ["weigh-up", 7, "=YARN.LAYDOWN(100,Recipes!A11:C15,2,0.5)"],
            ["weigh-up, moist", 7, "=YARN.LAYDOWN(100,Recipes!A11:C15,2,0.01,Recipes!A11:C15)"],
            ["practical", 5, "=YARN.MIXROUND(Recipes!A11:C15,0.25)"],
            ["slivers", 7, '=YARN.SLIVERPLAN(Recipes!A11:C15,20,"ktex",10)'],
            ["cheapest", 4, "=YARN.LEASTCOST(Wool!A3:C6,Wool!E3:G6,Wool!E9:G11)"],
            ["cheapest, out of reach", 1, '=YARN.LEASTCOST(Wool!A3:C6,Wool!E3:G6,{"none","none";"none",18.5})'],
            ["differences", 3, "=YARN.SHADEDIFF(Lots!A3:D4,Lots!A5:D6,\"1976\")"],
            ["parts", 4, "=YARN.SHADEPARTS(Lots!B4:D4,Lots!A5:D6)"],
            ["blocks", 4, "=YARN.SHADESORT(Lots!A3:E7,Lots!B4:D4,1)"],
            ["bath", 3, "=YARN.DYEBATH({100;50},10,Lots!A11:B12)"],
            ["bath with headings", 3, "=YARN.DYEBATH({100;50},10,Lots!A10:B12)"],
            ["on its side", 1, "=YARN.MIXNEED(TRANSPOSE(Recipes!A3:E5),Recipes!H5:I6)"],
            ["a name that is not there", 1, "=YARN.MIXSHADE({\"moss\",\"flint\",\"rust\",\"slate\";0.5,0.5,0,0},Solids!A3:H10)"],
            ["addition", 4, "=YARN.MIXADD({60,5,10},{62,4,10},80,Solids!A3:H10)"],
            ["quantities without one", 1, "=YARN.MIXNEED(Recipes!A3:E7,Recipes!H3:J5)"],
        ],
    )

    hand = book.sheet("By hand")
    hand.rows(
        "A1",
        [
            ["kg", "=90*0.5+30*0.1", "=90*0.3+40*0.2+30*0.2", "=30*0.7", "=90*0.2+40*0.8"],
            ["difference", "=SQRT(2^2+2^2)", "=0.4"],
            ["moist", "=0.5*100*1.17", "=0.3*100*1.16", "=0.2*100*1.175"],
            ["cost", "=SUMPRODUCT(Recipes!B4:C4,{13.2,9.5})+0.2*12.4"],
        ],
    )
    book.close()


BOOKS = {"order-costing.xlsx": order_costing, "german-mill.xlsx": german_mill, "dyehouse.xlsx": dyehouse}


def worked_out(make):
    """What LibreOffice gives for the native formulas of a book."""
    with tempfile.TemporaryDirectory() as folder:
        plain = os.path.join(folder, "book.xlsx")
        make(plain, {})
        # Without values beside the formulas, so that each is worked out on opening.
        openpyxl.load_workbook(plain).save(plain)
        command = ["soffice", "--headless", f"-env:UserInstallation=file://{folder}/profile", "--convert-to", "xlsx"]
        subprocess.run([*command, "--outdir", f"{folder}/out", plain], check=True, capture_output=True)
        book = openpyxl.load_workbook(f"{folder}/out/book.xlsx", data_only=True)
        start = datetime.datetime(1899, 12, 30)
        values = {}
        for sheet in book:
            for row in sheet.iter_rows():
                for cell in row:
                    value = cell.value
                    if isinstance(value, datetime.datetime):
                        value = (value - start).days
                    if value is not None:
                        values[(sheet.title, cell.row - 1, cell.column - 1)] = value
        return values


for name, make in BOOKS.items():
    make(os.path.join(HERE, name), worked_out(make))
