### On what ground something is asked for.

basis-read = { $cites } (text read; check the current text)
basis-read-on = { $cites } (text read { $day }; check the current text)
basis-laws = { $laws }
basis-law = { $cites }, for { $whom }
basis-except = { $cites } (not at sites that { $except } excepts)
basis-binds-others = common practice here; { $cites }
basis-from-memory = { $cites } (from memory; confirm before relying on it)
basis-practice = common practice, no source
basis-transloading-only = common practice; { $cites } asks it for unloading into trucks only (interpretations 06-0114, 07-0136, 10-0104)
basis-contradiction = a record with two differing entries proves neither
basis-unreadable = an entry that cannot be read may be a hold
basis-car-number = everything is filed under the car number
basis-alarm = an alarm stands until somebody answers it with a reason
basis-unloaded-as-far-as-practicable = 49 CFR 173.29(a) with interpretation 14-0024: unloaded to the maximum extent practicable
