### The page of shipping papers: files taken in, and papers without a record.

office-papers-title = Shipping papers
office-papers-unreadable = The file cannot be read. { $why }. Nothing was imported.
office-papers-lead = Import shipping papers as a table: headings in the first line; comma, semicolon or tab between columns. Nothing is saved before you check the preview.
office-papers-file = A file
office-papers-csv = CSV, up to 2 MB
office-papers-preview = Preview
office-papers-text = Or its text
office-papers-name = Name
office-papers-lines = Copied lines, headings first
office-papers-preview-text = Preview the text
office-papers-files = Imported files
office-papers-no-files = None yet.
office-papers-files-label = Files
office-papers-file-head = File
office-papers-taken = Imported
office-papers-taken-by = { $time }, by { $by }
office-papers-tables = Exports
office-papers-tables-note = The month as workbook, CSV or JSON:
office-papers-reconcile = Reconcile
office-papers-packets-note = Packets of a whole month:
office-papers-unmatched = Shipping papers of the last 100 days without a record
office-papers-of = { $count } of { $all }
office-papers-all-matched = Every paper has its car.
office-papers-paper = paper { $number }, { $day }, { $shipper }
office-papers-near = One character different, without a paper of its own:
office-papers-not-whole = The file came back incomplete. Choose it again.
office-papers-choose = Choose a file, or paste its text.
office-papers-as-last = Columns as in the last file with these headings.
office-papers-new-heads = These headings are new. Choose the columns.
office-papers-as-said = Columns as you chose.
office-papers-good = { $good } of { $all } lines can be imported. The others stay in the file, which is kept whole.
office-papers-no-column = not in this file
office-papers-unit = Unit of a quantity without one
office-papers-refresh = Refresh
office-papers-take =
    { $count ->
        [one] Import { $count } paper
       *[other] Import { $count } papers
    }
office-papers-lines-label = Lines
office-papers-line = Line
office-papers-paper-head = Paper
office-papers-car = Car
office-papers-shipper = Shipper
office-papers-day = Day
office-papers-billed = Billed
office-papers-wrong = Problem
office-papers-more =
    { $count ->
        [one] and { $count } more line
       *[other] and { $count } more lines
    }
office-papers-previewed = Shipping papers, preview
office-papers-first = Preview the file first.
office-papers-no-file = There is no such file.
office-papers-no-heads = The file has no first line with column headings. Nothing was imported.

## Columns of a file of shipping papers

office-column-number = Paper number
office-column-car = Car number
office-column-mark = Reporting mark only
office-column-shipper = Shipper
office-column-day = Day
office-column-billed = Billed quantity
office-column-density = Relative density
office-column-un_number = UN number
office-column-product = Proper shipping name
office-column-odorised = Odorized
office-column-grade = Grade
office-column-billed_by = Billed by (table, meter or scale)
office-column-winter_fill = Filled to winter limits
office-column-expected = Expected on

## Papers sent to sites

office-papers-says = What the paper says
office-papers-expected = Car expected
office-papers-send-to = Send to a site
office-papers-send-title = Send shipping papers to a site
office-papers-send-lead = The phones of the site then show these cars as expected, with what { $file } says of each. At the car, the number is still read from the car, and the paper in hand is compared.
office-papers-send-nothing = No line of this file can be sent.
office-papers-send-site = Site
office-papers-send-choose = Choose a site
office-papers-send-note = Recent papers are chosen. A car that is in the file twice stands here once, with its latest paper.
office-papers-send-do = Send the chosen papers
office-papers-send-choose-site = Choose the site to which the papers go.
office-papers-send-choose-lines = Choose at least one paper.
office-papers-send-too-many = Choose at most { $most } papers.
office-papers-send-stand-there = These papers stand at the site already. Nothing was sent.
office-papers-sent = Sent to sites
office-papers-none-sent = Nothing was sent to a site.
office-papers-site = Site
office-papers-sent-at = Sent
office-papers-became = Arrival
office-papers-came = here since { $day }
office-papers-waits = expected
office-papers-waited = did not come in time; no longer shown
office-papers-two = Two papers for this car differ. Send the right one again.
office-papers-take-back = Take back
office-papers-take-back-because = Why it is taken back
office-papers-take-back-do = Take this paper back
office-papers-take-back-why = Say in up to 400 characters why the paper is taken back.
office-papers-not-sent = This paper does not stand at the site.
