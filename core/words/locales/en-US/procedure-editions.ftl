### Editions of the organization’s own procedures: why a text is refused, what an edition changes, the numbers that it sets.

## Why a text is refused

procedure-error-on-line = Line { $line }: { $what }
procedure-error-unreadable = This cannot be read as a procedure: { $why }
procedure-error-too-large = The text has { $bytes } bytes. The most is { $most }.
procedure-error-empty = The procedure has no steps.
procedure-error-empty-field =
    { $step ->
        [0] { "" }
       *[other] Step “{ $step }”:{ " " }
    }“{ $field }” is empty.
procedure-error-no-language =
    { $step ->
        [0] { "" }
       *[other] Step “{ $step }”:{ " " }
    }“{ $field }” is written for something that is no language.
procedure-error-bad-id = Step “{ $step }”: a step’s id is made of a to z, 0 to 9 and _.
procedure-error-duplicate-id = Two steps have the id “{ $step }”.
procedure-error-stage-order = Step “{ $step }” stands after a step of a later stage.
procedure-error-unknown-after = Step “{ $step }” is to come after “{ $after }”, which does not stand before it.
procedure-error-bad-record = Step “{ $step }”: a record cannot be read: { $why }
procedure-error-fitting = Step “{ $step }”: what it records and the fittings that it repeats over do not go together.
procedure-error-holds = Step “{ $step }”: “holds” names what is no answer of its record.
procedure-error-sentence = Step “{ $step }” has a sentence, but the sentences of this procedure stand in the catalogs.
procedure-error-unit = Step “{ $step }”: the unit does not fit what is measured.
procedure-error-law = Step “{ $step }”: its law does not say whom it binds or how it is known.
procedure-error-interval = Step “{ $step }”: the interval is 1 to 1,440 minutes, given once.
procedure-error-order = A rule about the order names “{ $step }”, which is no step that repeats over lines.
procedure-error-together = Steps together “{ $group }”: { $why }.
procedure-error-gate = Gate item “{ $rule }”: { $why }.
procedure-error-blocks-too-late = Step “{ $step }” cannot block “{ $gate }”: it comes after that is signed.
procedure-error-unknown-start = The text does not say which built-in edition it starts from, or this version does not have that edition.
procedure-error-note = The note above the steps stays that of the edition that the text starts from.
procedure-error-step-unexplained = Law asks for step “{ $step }”. Give the reason why it is left out or asks for less.
procedure-error-rule-unexplained = Law asks for gate item “{ $rule }”. Give the reason why it is left out or asks for less.
procedure-error-left-out-unclear = What is left out names one step or one gate item and has a reason: “{ $name }”.
procedure-error-left-out-stands = “{ $name }” is said to be left out, but it stands in the text.
procedure-error-essential = “{ $name }” cannot be left out. No record can be kept without it.
procedure-error-out-of-bounds = { $threshold }: enter { $least } to { $most }.
procedure-error-other-digest = The published text is not the one that its entry names.
procedure-gate-mistake-one-of-three = it asks for exactly one of record, condition and step
procedure-gate-mistake-no-record = it asks for no record
procedure-gate-mistake-record-of-fitting = its record is of a fitting, but the rule does not repeat over fittings
procedure-gate-mistake-event-of-fitting = its event is of a fitting, but the rule does not repeat over fittings
procedure-gate-mistake-no-slot = its record cannot be looked for
procedure-gate-mistake-condition-each = its condition and “each” do not fit together
procedure-gate-mistake-unknown-step = it names a step that the procedure does not have
procedure-gate-mistake-no-gate = it names no gate
procedure-gate-mistake-empty-sentence = it has an empty sentence
procedure-gate-mistake-law-unclear = its law is unclear: how it is known, whom it binds, or when it was read
procedure-gate-mistake-law-and-because = “law” and “because” do not stand together
procedure-together-mistake-no-such-step = it names a step that does not exist, or none
procedure-together-mistake-order = its steps stand in another order than in the procedure
procedure-together-mistake-two-groups = one of its steps belongs to another group too
procedure-together-mistake-stages = its steps are of several stages
procedure-together-mistake-more-than-a-tap = a step asks for more than a tap; only steps that all ask for readings can do so
procedure-together-mistake-not-over-lines = it has a key for each line, and one of its steps does not repeat over lines
procedure-together-mistake-no-title = it has no title, or does not say what to do
procedure-read-syntax = the text is not TOML here
procedure-read-unknown = “{ $name }” is not known here. Known: { $known }
procedure-read-missing = “{ $name }” is missing
procedure-read-twice = “{ $name }” stands twice
procedure-read-other-kind = a value of another kind is needed here

## What an edition changes

procedure-change-title = Title: { $title }
procedure-change-item = gate item: { $item }
procedure-change-left-out =
    Left out or asks for less: { $what }{ $laws ->
        [0] { "" }
       *[other] { " " }({ $laws })
    }.{ $because ->
        [0] { "" }
       *[other] { " " }Reason: { $because }
    }
procedure-change-added = New step: { $step }
procedure-change-words = Reworded: { $step }
procedure-change-moved = Moved: { $step }
procedure-change-interval = Interval of { $step }: { $minutes } minutes
procedure-change-blocks = { $step } blocks: { $gate }
procedure-change-threshold = { $threshold }: { $number }
procedure-change-threshold-usual = { $threshold }: as usual

## The numbers that an organization sets

procedure-threshold-reading_interval_minutes = Interval of readings, minutes
procedure-threshold-hold_minutes = Least time of a pressure hold, minutes
procedure-threshold-final_pressure_span_psi = Largest span of the gauge for the final pressure, psig
procedure-threshold-attendance_gap_minutes = Longest time without a sign of attendance, minutes
procedure-threshold-check_in_minutes = All well: how often whoever has the car says so, minutes (empty: not asked)
