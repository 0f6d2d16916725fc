### The page of inquiry: one box for a number, a seal, a date or a place.

office-inquiry-title = Inquiry
office-inquiry-asked = Car number, seal, date or place
office-inquiry-find = Find
office-inquiry-how = Spaces, dashes and case do not matter. Write a date as 2026-11-09, 11/9/2026 (month first) or 9 Nov 2026. Add it to a number or a place to find less.
office-inquiry-none = Nothing found for “{ $asked }”
office-inquiry-none-on = Nothing found for “{ $asked }” on { $day }
office-inquiry-not-sent = What phones have not sent yet is not known here.
office-inquiry-records =
    { $count ->
        [one] { $count } record
       *[other] { $count } records
    }
office-inquiry-records-on =
    { $count ->
        [one] { $count } record on { $day }
       *[other] { $count } records on { $day }
    }
office-inquiry-more = There are more. Add a date or a place.
office-inquiry-near = One character different
office-inquiry-span = { $from } to { $to }
office-inquiry-released = released
office-inquiry-differ = entries differ
office-inquiry-record = Record
office-inquiry-packet = Packet
office-inquiry-record-of = Record of { $car }, { $day }
office-inquiry-packet-of = Packet of { $car }, { $day }
office-inquiry-why-number = car number
office-inquiry-why-begins = car number begins so
office-inquiry-why-at = at { $site }
office-inquiry-why-day = there on { $day }
office-inquiry-why-near = one character different: { $said }
