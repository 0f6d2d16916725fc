//! The whole job as it is typed, from the first look to the sign coming down: one liquid line and the
//! vapour line into a fixed tank, nothing left out.

/// Up to the decision that the liquid is out.
pub const UNLOADING: &[&str] = &[
    "paper number=A-1 [car=ZZQX 4417] un_number=UN1978 product=Propane [billed=29 340 gal] relative_density=0.507 odorised=yes",
    "protection track_secured set",
    "protection hand_brake set",
    "protection chocks set",
    "protection blue_sign set",
    "protection gas_detector set",
    "protection emergency_shut_off set",
    "car_capacity [33 700 gal]",
    "car_diameter [119 in]",
    "cover open out 4 4",
    "car_fittings liquid_a,vapour,gauging_device",
    "valve liquid_a shut",
    "closure liquid_a tool_tight",
    "listen liquid_a quiet",
    "valve vapour shut",
    "closure vapour tool_tight",
    "listen vapour quiet",
    "closure gauging_device tool_tight",
    "reading pressure car arrival [92 psi] PG-1",
    "reading temperature car arrival [54 °F] T-1",
    "reading outage car arrival [24 in]",
    "reading level storage_tank arrival [8 %]",
    "photo car_number",
    "photo seal seal/housing_pin",
    "seal found housing_pin number=F1 kind=cable photo=last",
    "weather dry [nw light]",
    "step escape_way",
    "fit_to_unload",
    "closure liquid_a open",
    "item_out [adapter liquid a] liquid_a",
    "line liquid_a connected H-1",
    "valve liquid_a open",
    "closure vapour open",
    "item_out [adapter vapour] vapour",
    "line vapour connected H-2",
    "valve vapour open",
    "attendance here",
    "reading pressure car transfer [108 psi] PG-1",
    "reading pressure car recovery [38 psi] LG-1",
    "empty_sign rod_at_bottom seen",
    "empty_sign vapour_at_liquid_valve seen",
];

/// From the decision to the sign coming down, in the order of the job, with the last round of closures one by one.
pub const CLOSING: &[&str] = &[
    "empty_decision yes [rod at its bottom, only vapour, pressure stands]",
    "valve liquid_a shut",
    "listen liquid_a quiet",
    "line liquid_a off",
    "threads liquid_a [5 turns]",
    "item_in [adapter liquid a]",
    "valve vapour shut",
    "listen vapour quiet",
    "line vapour off",
    "threads vapour [5 turns]",
    "item_in [adapter vapour]",
    "reading pressure car final [38.5 psi] LG-1",
    "reading temperature car final [47 °F] T-1",
    "valve liquid_a shut",
    "listen liquid_a quiet",
    "closure liquid_a tool_tight",
    "valve vapour shut",
    "listen vapour quiet",
    "closure vapour tool_tight",
    "closure gauging_device tool_tight",
    "cover closed in 4 4",
    "seal applied housing_pin number=K1 kind=cable photo=last",
    "check [outside of the car, before it is offered] right",
    "check [residue paper made out] right",
    "check [placards in place] right",
    "protection chocks away",
    "protection track_secured away",
    "protection blue_sign away",
];

/// The closing part with `line` left out wherever it stands, and `instead` where it stood last.
pub fn closing_but<'a>(line: &str, instead: &[&'a str]) -> Vec<&'a str>
where
    'static: 'a,
{
    let at = CLOSING.iter().rposition(|known| *known == line).expect(line);
    let mut lines: Vec<&str> = CLOSING[..at].iter().copied().filter(|known| *known != line).collect();
    lines.extend(instead);
    lines.extend(&CLOSING[at + 1..]);
    lines
}
