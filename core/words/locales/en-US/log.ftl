### The event log: each entry as one sentence, with the fields of its kind as arguments. A field that is not filled in is the number 0.

## How entries lean on each other

log-voided = Voided: { $entries }.
log-settled = Resolved, keeping { $entry }.
log-corrects = { $says } Corrects { $entries }.
log-quote = “{ $claim }”
log-quotes = { $quotes }
log-not-here = entry { $entry } (not here)
log-more = { $count } more
log-done = { $says } Done { $done }, entered { $entered }.
log-rests_on = { $says } Rests on the entry of { $time } for { $car } ({ $entry }).
log-rests_on_unknown = { $says } Rests on an entry for another car, { $entry } (not here).
log-nothing = nothing
log-withdrawn = Voided.
log-agreement = Resolved.

## Each kind of entry

log-opened =
    Record of { $car } opened{ $spot ->
        [0] { "" }
       *[other] , spot { $spot }
    }{ $receiver ->
        [0] { "" }
       *[other] , into: { $receiver }
    }.
log-paper = Shipping paper: { $parts }.
log-paper-nothing = Shipping paper: nothing entered.
log-paper-number = number { $text }
log-paper-car = car { $text }
log-paper-shipper = from { $text }
log-paper-billed = billed { $amount }
log-paper-density = relative density { $amount } at 60 °F
log-paper-odorized = odorized
log-paper-not-odorized = NOT odorized
log-paper-grade = grade { $grade }
log-paper-billed-by = billed by { $by }
log-paper-winter = filled to winter limits
log-paper-not-winter = not filled to winter limits
log-paper-compared = { $says } Compared with the paper in hand; read by the office's import: { $source }.
log-paper-compared-elsewhere = { $says } Compared with the paper in hand; the office's entry { $entry } is not in this record.
log-clock = Time, { $event }: { $at }.
log-reading =
    Reading, { $title }: { $amount }{ $instrument ->
        [0] , instrument not named
       *[other] , on { $instrument }
    }.
log-step =
    Step “{ $step }”: { $outcome }{ $note ->
        [0] { "" }
       *[other] { " " }({ $note })
    }.
log-valve = Valve ({ $fitting }): { $position }.
log-closure = Closure ({ $fitting }): { $state }.
log-listen = Listened ({ $fitting }): { $heard }.
log-line =
    { $connected ->
        [yes] Line connected
       *[other] Line disconnected
    } ({ $fitting }){ $hose ->
        [0] { "" }
       *[other] , hose { $hose }
    }.
log-effort = Torque to close ({ $fitting }, { $part }): { $amount }.
log-threads = Threads engaged ({ $fitting }): { $engaged }.
log-item_out =
    Out: { $item }{ $fitting ->
        [0] { "" }
       *[other] , at { $fitting }
    }. It must be returned.
log-item_in = Returned: { $item }.
log-seal =
    Seal { $number ->
        [0] without a readable number
       *[other] { $number }
    } ({ $kind ->
        [0] kind not given
       *[other] { $kind }
    }): { $event }, { $place }, { $intact ->
        [yes] intact
       *[other] NOT intact
    }{ $photo ->
        [0] { "" }
       *[other] , photographed
    }{ $note ->
        [0] { "" }
       *[other] . { $note }
    }{ $because ->
        [0] { "" }
       *[other] . Reason: { $because }
    }.
log-photo =
    Photograph: { $of }{ $about ->
        [0] { "" }
       *[other] { " " }({ $about })
    }, { $bytes } bytes, { $digest }.
log-defect =
    Defect{ $fitting ->
        [0] { "" }
       *[other] { " " }({ $fitting })
    }: { $what }.{ $needs_authority ->
        [yes] { " " }The car moves only with an approval.
       *[other] { "" }
    }
log-forwarded = Defect reported to { $to } ({ $how }).
log-authority =
    Approval for a defect: { $by }, reference { $reference }{ $spoken_at ->
        [0] { "" }
       *[other] , verbal { $spoken_at }
    }{ $written_at ->
        [0] { "" }
       *[other] , in writing { $written_at }
    }.
log-resolved = Defect repaired: { $how }.
log-incident =
    INCIDENT: { $source }{ $fitting ->
        [0] { "" }
       *[other] { " " }({ $fitting })
    }, noticed { $noticed_at }.{ $what ->
        [0] { "" }
       *[other] { " " }{ $what }.
    }{ $injury ->
        [0] { "" }
       *[other] { " " }Injury: { $injury }.
    }{ $ignition ->
        [yes] { " " }Fire.
        [no] { " " }No fire.
       *[other] { "" }
    }{ $evacuation ->
        [0] { "" }
       *[other] { " " }Evacuation: { $evacuation }.
    }{ $closed ->
        [yes] { " " }Road, line or facility closed an hour or more.
        [no] { " " }Nothing closed an hour.
       *[other] { "" }
    }
log-incident_stopped =
    Incident stopped { $at }{ $loss ->
        [0] { "" }
       *[other] , estimated loss { $loss }
    }.{ $minimal ->
        [yes] { " " }Minimal amount of connecting or disconnecting, no damage.
        [no] { " " }More than a minimal amount.
       *[other] { "" }
    }
log-incident_call =
    Told of the incident: { $to }, { $at }{ $number ->
        [0] { "" }
       *[other] , number { $number }
    }.
log-incident_closed = Incident closed: { $how }.
log-leak =
    LEAK: { $at }{ $fitting ->
        [0] { "" }
       *[other] { " " }({ $fitting })
    }.{ $action ->
        [0] { "" }
       *[other] { " " }Done about it: { $action }.
    }
log-leak_checked =
    Leak checked again: { $tight ->
        [yes] tight
       *[other] STILL LEAKING
    }{ $note ->
        [0] { "" }
       *[other] { " " }({ $note })
    }.
log-car_left =
    Car left, { $connected ->
        [yes] connected
       *[other] disconnected
    }{ $until ->
        [0] { "" }
       *[other] , until { $until }
    }.{ $conditions ->
        [0] { "" }
       *[other] { " " }Seen to: { $conditions }.
    }{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }.
    }
log-car_moved =
    Car moved during its stay{ $to ->
        [0] { "" }
       *[other] , to { $to }
    }{ $by ->
        [0] { "" }
       *[other] , by { $by }
    }.
log-outcome =
    The car goes { $load }: { $because }{ $to ->
        [0] { "" }
       *[other] , to { $to }
    }.{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }.
    }
log-next_time =
    Next time: { $what }{ $fitting ->
        [0] { "" }
       *[other] { " " }({ $fitting })
    }.
log-next_time_done =
    Note for next time seen to{ $how ->
        [0] { "" }
       *[other] : { $how }
    }.
log-valve_feel = Valve at { $fitting } turned: { $feel }.
log-plug_condition =
    Plug at { $fitting }: { $state }{ $note ->
        [0] { "" }
       *[other] { " " }({ $note })
    }.
log-cover_condition =
    Housing cover, { $part }: { $state }{ $note ->
        [0] { "" }
       *[other] { " " }({ $note })
    }.
log-hose_pressure = Hose at { $fitting } after drawing down: { $amount }.
log-hold = HOLD: { $because }.
log-hold_lifted = Hold lifted: { $because }.
log-handover_given = Handed over to { $to }.
log-handover_taken = Taken over from { $from }.
log-attendance = Attendance: { $presence }.
log-checked_in = All well, says whoever has the car.
log-cover =
    Housing cover { $closed ->
        [yes] closed
       *[other] open
    }, pin { $pinned ->
        [yes] in
       *[other] out
    }, { $bolts_in_place } of { $bolts_required } bolts in place.
log-protection = Protection, { $what }: { $state }.
log-weather =
    Weather: { $precipitation }{ $wind ->
        [0] { "" }
       *[other] , wind { $wind }
    }.
log-empty_sign =
    Sign, { $sign }: { $seen ->
        [yes] yes
       *[other] no
    }.
log-empty_decision =
    { $accepted ->
        [yes] Accepted as empty of liquid
       *[other] NOT accepted as empty of liquid
    }: { $grounds }.
log-truck_load =
    Truck { $truck } loaded with { $amount }{ $ticket ->
        [0] { "" }
       *[other] , ticket { $ticket }
    }{ $driver ->
        [0] { "" }
       *[other] , driver { $driver }
    }{ $level ->
        [0] { "" }
       *[other] , level { $level }
    }{ $temperature ->
        [0] { "" }
       *[other] , temperature { $temperature }
    }{ $seal ->
        [0] { "" }
       *[other] , seal { $seal }
    }.
log-tank_gauged =
    Tank { $tank }, { $moment }{ $level ->
        [0] { "" }
       *[other] , level { $level }
    }{ $pressure ->
        [0] { "" }
       *[other] , pressure { $pressure }
    }{ $temperature ->
        [0] { "" }
       *[other] , temperature { $temperature }
    }{ $meter ->
        [0] { "" }
       *[other] , meter { $meter }
    }.
log-recovery_planned =
    Recovery planned down to { $target }{ $swept ->
        [0] { "" }
       *[other] , compressor { $swept }
    }{ $efficiency ->
        [0] { "" }
       *[other] , efficiency { $efficiency }
    }{ $price ->
        [0] { "" }
       *[other] , price of a gallon { $price }
    }{ $cost ->
        [0] { "" }
       *[other] , cost of an hour { $cost }
    }.
log-inspection =
    Inspected by { $by }{ $looked_at ->
        [0] { "" }
       *[other] : { $looked_at }
    }.{ $found ->
        [yes] { " " }Something to put right.
        [no] { " " }Nothing found.
       *[other] { "" }
    }{ $finding ->
        [0] { "" }
       *[other] { " " }{ $finding }.
    }{ $copy_left ->
        [yes] { " " }A copy was left.
        [no] { " " }No copy was left.
       *[other] { "" }
    }
log-check =
    Check, { $what }: { $right ->
        [yes] right
       *[other] NOT right
    }{ $note ->
        [0] { "" }
       *[other] { " " }({ $note })
    }.
log-remark = Remark: { $text }
log-joined = Same stay as record { $other }.
log-not_joined = Not the same stay as record { $other }.
log-passed_over = Overridden: { $item }.
log-overridden =
    Overridden at “{ $gate }”, { $count ->
        [one] 1 item
       *[other] { $count } items
    }: { $items }. Reason: { $reason }.
log-last_round =
    Last round, all in order: { $fittings }.{ $except ->
        [0] { "" }
       *[other] { " " }Exceptions: { $except }.
    }{ $note ->
        [0] { "" }
       *[other] { " " }{ $note }.
    }{ $photo ->
        [0] { "" }
       *[other] { " " }Photograph { $photo }.
    }
log-fit_to_unload = Fit to unload.
log-released =
    Released{ $as_residue ->
        [yes] { " " }as residue
       *[other] , not as residue
    }.
log-car_number_again = Car number read again from the stencil: { $car }.
log-car_fittings =
    Under the housing: { $fittings }{ $gauging ->
        [0] { "" }
       *[other] . Gauging device: { $gauging }
    }{ $vapour_end ->
        [0] { "" }
       *[other] . Vapor valve: { $vapour_end }
    }.
log-car_capacity =
    Shell capacity { $capacity }{ $insulation ->
        [0] { "" }
       *[other] , { $insulation }
    }.
log-car_diameter = Inside diameter { $diameter }.
log-outage_table =
    Outage table { $name }, { $rows ->
        [one] 1 row
       *[other] { $rows } rows
    }, gallons of { $liquid ->
        [yes] liquid
       *[other] empty space
    }.
log-car_test_date = Test date, { $test }: due { $due }.
log-site = Site { $name }, time zone { $zone }.
log-tank = Tank { $name }, { $water_capacity }.
log-instrument = Instrument { $name } for { $measures }, span { $span }.
log-hose = Hose { $name } for { $service }.
log-contact = Contact, { $role }: { $name }, { $telephone }.
log-seal_stock = Seals { $from } to { $to } issued.
log-operator =
    { $named ->
        [0] { $operator } is { $name }.
       *[other] { $operator } is on the roster; the name is kept beside it.
    }
log-person_key = { $person } made a PIN key on this phone ({ $key }).
log-person_key_confirmed = Key { $key } of { $person } confirmed.
log-person_key_ended = Key { $key } of { $person } ended.
log-name_forgotten = The name of { $person } was removed at the office.
log-held_by = This phone is now held by { $person }.
log-admitted = Late entry { $entry } admitted.
log-rules = Rules of the organization set: PIN { $unlocking }.
log-unrecognised = An entry of a kind this version does not know ({ $kind }). It is kept whole.
log-procedure_published =
    Procedure { $procedure } published for { $sites }, made from { $from }.{ $note ->
        [0] { "" }
       *[other] { " " }Changed: { $note }.
    }
log-procedure_withdrawn = Procedure { $procedure } taken back: { $because }.
log-paper_expected =
    Car { $car } is expected. { $paper } Read from { $file }, line { $line }.{ $expected ->
        [0] { "" }
       *[other] { " " }Expected on { $expected }.
    }
log-paper_taken_back = The paper of the expected car { $car } is taken back: { $because }.
log-all-sites = all sites
log-sites =
    { $count ->
        [one] one site
       *[other] { $count } sites
    }
