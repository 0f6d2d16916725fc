//! The quantities of a stay. The uncertainty of each is split into parts that are shared with other cars and
//! parts that are not.
//!
//! A gauge that reads a quarter inch short does so at every car, and such an error does not average out over
//! a month. The core gives one uncertainty for each quantity. This file splits it by the sensitivities of the
//! net volume to outage, temperature and relative density, and names each part by what it is shared through.
//! Called by `Facts::of`.

use farsiding_core::calc::instrument::Limited;
use farsiding_core::calc::uncertainty::{COVERAGE, Measured};
use farsiding_core::calc::{arrival, ctl};
use farsiding_core::entry::vocabulary::{Insulation, Measured as What, Place, Purpose};
use farsiding_core::units::{Amount, Computed, Dimension, Unit};
use farsiding_core::view::{Quantity, SiteView, VisitView};
use farsiding_core::{Arg, Message, message};
use serde::{Deserialize, Serialize};

/// The half-width of the assumed uncertainty of a storage tank's level gauge, in % of the tank. Common
/// practice, no source.
pub const LEVEL_LIMIT_PERCENT: f64 = 1.0;
/// The half-width of the assumed uncertainty of a liquid meter, in % of the metered quantity. Common
/// practice, no source.
pub const METER_LIMIT_PERCENT: f64 = 0.3;
/// The half-width of the assumed uncertainty of a truck's own measure, in % of the load. Common practice, no
/// source.
pub const TRUCK_LIMIT_PERCENT: f64 = 0.5;

/// A part of an uncertainty.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Share {
    /// The source of the part, for people: "outage by GR-14".
    pub from: Message,
    /// The key through which the part is shared. Parts with the same key have the same error in several
    /// quantities. If empty, the part belongs to this car alone.
    pub key: String,
    /// The standard uncertainty, in the unit of the quantity.
    pub standard: f64,
}

/// A quantity with the parts of its uncertainty.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Amounted {
    /// The value.
    pub value: f64,
    /// The unit of the value.
    pub unit: Unit,
    /// The parts of the uncertainty.
    pub parts: Vec<Share>,
    /// How the quantity was determined.
    pub how: Message,
    /// The instrument behind the quantity, if one was named.
    pub instrument: String,
    /// The weight in vacuum of a net gallon, in pounds, if known. It is used to compare a weight with a
    /// volume.
    pub pounds_per_gallon: Option<f64>,
    /// The relative standard uncertainty of that weight, with the key through which it is shared.
    #[serde(default)]
    pub density: Option<Share>,
}

impl Amounted {
    /// Returns the combined standard uncertainty.
    pub fn standard(&self) -> f64 {
        self.parts.iter().fold(0.0_f64, |sum, part| sum.hypot(part.standard))
    }

    /// Returns the expanded uncertainty at 95 %.
    pub fn plus_minus(&self) -> f64 {
        COVERAGE * self.standard()
    }
}

/// A side of a comparison.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// What was billed.
    Billed,
    /// What was gauged on arrival.
    Found,
    /// What storage or trucks took in.
    Received,
    /// What was left in the car.
    Left,
}

/// A quantity that is missing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Missing {
    /// The quantity.
    pub of: Side,
    /// Why it is missing.
    pub why: Message,
}

impl Missing {
    /// Returns the quantity and the reason in words.
    pub fn message(&self) -> Message {
        let id = match self.of {
            Side::Billed => "reconcile-missing-billed",
            Side::Found => "reconcile-missing-found",
            Side::Received => "reconcile-missing-received",
            Side::Left => "reconcile-missing-left",
        };
        Message::new(id).with("why", self.why.clone())
    }
}

/// How full a car came.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fill {
    /// The space above the liquid at the reference temperature, in % of the shell.
    pub outage_percent: f64,
    /// The expanded uncertainty of that space at 95 %, in % of the shell.
    pub plus_minus: f64,
    /// The smallest required space, in % of the shell.
    pub least_percent: f64,
    /// The reference temperature, in °F.
    pub reference_f: f64,
    /// The source of the limit.
    pub source: Message,
}

impl Fill {
    /// Returns whether the space is below the limit by more than the uncertainty.
    pub fn overfilled(&self) -> bool {
        self.outage_percent + self.plus_minus < self.least_percent
    }

    /// Returns whether the measured space is below the limit, but within the uncertainty.
    pub fn in_doubt(&self) -> bool {
        !self.overfilled() && self.outage_percent < self.least_percent
    }
}

/// All quantities of a stay.
#[derive(Debug, Default)]
pub(super) struct Amounts {
    pub billed: Option<Amounted>,
    pub found: Option<Amounted>,
    pub received: Option<Amounted>,
    pub vapour: Option<Amounted>,
    pub left: Option<Amounted>,
    pub gauge: String,
    pub fill: Option<Fill>,
    pub missing: Vec<Missing>,
}

pub(super) fn read(view: &VisitView, site: Option<&SiteView>) -> Amounts {
    let mut amounts = Amounts { gauge: instrument(view, What::Outage), ..Amounts::default() };
    match found(view) {
        Ok(found) => {
            amounts.fill = fill(view, &found);
            amounts.vapour = vapour(view);
            amounts.found = Some(found);
        }
        Err(why) => amounts.missing.push(Missing { of: Side::Found, why }),
    }
    match billed(view) {
        Ok(billed) => amounts.billed = Some(billed),
        Err(why) => amounts.missing.push(Missing { of: Side::Billed, why }),
    }
    match received(view, site) {
        Ok(received) => amounts.received = Some(received),
        Err(why) => amounts.missing.push(Missing { of: Side::Received, why }),
    }
    match left(view) {
        Ok(left) => amounts.left = Some(left),
        Err(why) => amounts.missing.push(Missing { of: Side::Left, why }),
    }
    amounts
}

fn quantity<'v>(view: &'v VisitView, name: &str) -> Option<&'v Quantity> {
    view.computed.iter().find(|quantity| quantity.name == name)
}

/// Returns the undisputed reading for a purpose, a quantity and a place, with its instrument.
fn reading(view: &VisitView, purpose: Purpose, what: What, place: Place) -> Option<(&Amount, &str)> {
    view.readings
        .iter()
        .find(|reading| (reading.purpose, reading.measured, reading.place) == (purpose, what, place))
        .and_then(|reading| reading.current.as_ref())
        .filter(|known| !known.disputed)
        .map(|known| (&known.value.amount, known.value.instrument.trim()))
}

fn instrument(view: &VisitView, what: What) -> String {
    reading(view, Purpose::Arrival, what, Place::Car).map_or(String::new(), |(_, name)| name.to_owned())
}

/// Returns the key through which errors are shared at a site: the instrument's name, or else the kind of
/// instrument.
fn shared(view: &VisitView, kind: &str, name: &str) -> String {
    let site = view.header.site.map_or(String::new(), |site| site.short());
    format!("{kind}/{site}/{}", name.trim().to_lowercase())
}

/// Returns a source of uncertainty, with the instrument if one was named.
fn by(id: &'static str, name: &str) -> Message {
    match name {
        "" => Message::new(id),
        name => message!("reconcile-from-by", from = Message::new(id), name = Arg::typed(name)),
    }
}

/// Returns the middle of a quantity and half its band, where only the grade of the product is known.
fn middle(quantity: &Quantity) -> Result<(f64, f64, &Computed), Message> {
    let missing = || quantity.missing.clone().unwrap_or_default();
    let low = quantity.value.as_ref().ok_or_else(missing)?;
    let high = quantity.up_to.as_ref().unwrap_or(low);
    Ok((0.5 * (low.value + high.value), 0.5 * (high.value - low.value).abs(), low))
}

fn standard(computed: &Computed) -> f64 {
    computed.plus_minus.unwrap_or(0.0) / COVERAGE
}

fn found(view: &VisitView) -> Result<Amounted, Message> {
    let net = quantity(view, "net_volume").or_else(|| quantity(view, "gross_volume"));
    let net = net.ok_or_else(|| Message::new("reconcile-nothing-gauged"))?;
    let (value, band, computed) = middle(net)?;
    if net.name != "net_volume" {
        return Err(Message::new("reconcile-not-at-60"));
    }
    let whole = standard(computed);
    let mut parts = sensitivities(view, value);
    // The part of the core's uncertainty that the named parts do not cover belongs to this car alone. If the
    // named parts claim more than the core's uncertainty, they are scaled down.
    let claimed = parts.iter().fold(0.0_f64, |sum, part| sum.hypot(part.standard));
    if claimed > whole {
        for part in &mut parts {
            part.standard *= whole / claimed;
        }
    } else {
        let rest = (whole * whole - claimed * claimed).max(0.0).sqrt();
        parts.push(Share { from: Message::new("reconcile-from-rest"), key: String::new(), standard: rest });
    }
    if band > 0.0 {
        let key = format!("composition/{}", view.header.product.to_lowercase());
        let from = Message::new("reconcile-from-grade");
        parts.push(Share { from, key, standard: band / 3.0_f64.sqrt() });
    }
    let pounds = quantity(view, "weight_in_vacuum").and_then(|weight| middle(weight).ok());
    Ok(Amounted {
        value,
        unit: computed.unit,
        parts,
        how: Message::new("reconcile-how-gauged"),
        instrument: instrument(view, What::Outage),
        pounds_per_gallon: pounds.map(|(pounds, _, _)| pounds / value).filter(|ratio| ratio.is_finite()),
        density: density(view).map(|(rd60, key, from)| Share {
            from,
            key,
            standard: Limited::HYDROMETER.half_width / 3.0_f64.sqrt() / rd60,
        }),
    })
}

/// Returns the vapour above the liquid on arrival.
fn vapour(view: &VisitView) -> Option<Amounted> {
    let (value, band, computed) = middle(quantity(view, "vapor_volume")?).ok()?;
    let mut parts = vec![Share {
        from: Message::new("reconcile-from-vapor"),
        key: String::new(),
        standard: standard(computed),
    }];
    if band > 0.0 {
        let from = Message::new("reconcile-from-grade");
        parts.push(Share { from, key: String::new(), standard: band / 3.0_f64.sqrt() });
    }
    Some(gallons(value, parts, "reconcile-how-vapor", ""))
}

/// Returns the relative density, the key through which its error is shared, and where it is from.
fn density(view: &VisitView) -> Option<(f64, String, Message)> {
    if let Some((amount, name)) = reading(view, Purpose::Arrival, What::RelativeDensity, Place::Car)
        && let Some(rd60) = amount.value_in(Unit::One)
    {
        return Some((rd60, shared(view, "density", name), by("reconcile-from-density", name)));
    }
    let paper = &view.header.paper.as_ref()?.value;
    let rd60 = paper.relative_density.as_ref()?.value_in(Unit::One)?;
    let shipper = paper.shipper.trim().to_lowercase();
    Some((rd60, format!("density/{shipper}"), Message::new("reconcile-from-paper-density")))
}

/// Returns the contributions of the instruments behind a net volume to its uncertainty, by first differences.
fn sensitivities(view: &VisitView, net: f64) -> Vec<Share> {
    let mut parts = Vec::new();
    let gross = quantity(view, "gross_volume").and_then(|gross| gross.value.as_ref());
    if let Some(gross) = gross.filter(|gross| gross.value > 0.0) {
        let gauge = instrument(view, What::Outage);
        let key = shared(view, "outage", &gauge);
        let from = by("reconcile-from-outage", &gauge);
        parts.push(Share { from, key, standard: standard(gross) * net / gross.value });
    }
    let value = |what, unit| {
        let (amount, name) = reading(view, Purpose::Arrival, what, Place::Car)?;
        Some((amount.value_in(unit)?, name.to_owned()))
    };
    let temperature = value(What::Temperature, Unit::Fahrenheit);
    let (Some((fahrenheit, thermometer)), Some((rd60, density_key, density_from))) =
        (temperature, density(view))
    else {
        return parts;
    };
    let slope = |a: (f64, f64), b: (f64, f64)| {
        let at = |(t, d): (f64, f64)| ctl::unrounded_24e(t, d).ok();
        at(a).zip(at(b)).zip(at((fahrenheit, rd60))).map_or(0.0, |((a, b), here)| (a - b).abs() / 2.0 / here)
    };
    let root = 3.0_f64.sqrt();
    let (warm, heavy) = (Limited::THERMOMETER.half_width / root, Limited::HYDROMETER.half_width / root);
    parts.push(Share {
        from: by("reconcile-from-temperature", &thermometer),
        key: shared(view, "temperature", &thermometer),
        standard: net * slope((fahrenheit + warm, rd60), (fahrenheit - warm, rd60)),
    });
    parts.push(Share {
        from: density_from,
        key: density_key,
        standard: net * slope((fahrenheit, rd60 + heavy), (fahrenheit, rd60 - heavy)),
    });
    parts
}

/// Returns the paper's quantity as recorded. The uncertainty of a shipper's measure is a setting of
/// `reconcile`.
fn billed(view: &VisitView) -> Result<Amounted, Message> {
    let known = view.header.paper.as_ref().ok_or_else(|| Message::new("reconcile-no-paper"))?;
    if known.disputed {
        return Err(Message::new("reconcile-papers-differ"));
    }
    let billed = known.value.billed.as_ref().ok_or_else(|| Message::new("reconcile-paper-no-quantity"))?;
    let value =
        billed.value.ok_or_else(|| message!("quantity-not-a-number", text = Arg::typed(&billed.text)))?;
    if !matches!(billed.unit.dimension(), Dimension::Volume | Dimension::Mass) || value <= 0.0 {
        return Err(message!("reconcile-no-quantity", amount = billed.arg()));
    }
    let unit = if billed.unit.dimension() == Dimension::Mass { Unit::Pound } else { Unit::Gallon };
    let value = billed.value_in(unit).unwrap_or(value);
    Ok(Amounted {
        value,
        unit,
        parts: Vec::new(),
        how: Message::new("reconcile-how-billed"),
        instrument: String::new(),
        pounds_per_gallon: None,
        density: None,
    })
}

fn received(view: &VisitView, site: Option<&SiteView>) -> Result<Amounted, Message> {
    for place in [Place::StorageTank, Place::LiquidLine, Place::Truck] {
        if let Some(metered) = metered(view, place) {
            return metered;
        }
    }
    if !view.trucks.loads.is_empty() {
        let total = view.trucks.total_gal.ok_or_else(|| Message::new("reconcile-truck-unreadable"))?;
        let standard = total * TRUCK_LIMIT_PERCENT / 100.0 / 3.0_f64.sqrt();
        let part = Share { from: Message::new("reconcile-from-trucks"), key: String::new(), standard };
        return Ok(gallons(total, vec![part], "reconcile-how-trucks", ""));
    }
    levels(view, site)
}

fn gallons(value: f64, parts: Vec<Share>, how: &'static str, instrument: &str) -> Amounted {
    Amounted {
        value,
        unit: Unit::Gallon,
        parts,
        how: Message::new(how),
        instrument: instrument.to_owned(),
        pounds_per_gallon: None,
        density: None,
    }
}

/// Returns a meter's reading at the end, minus the reading on arrival if there is one.
fn metered(view: &VisitView, place: Place) -> Option<Result<Amounted, Message>> {
    let (end, name) = reading(view, Purpose::Final, What::Volume, place)?;
    let start = reading(view, Purpose::Arrival, What::Volume, place);
    let value = |amount: &Amount| {
        let odd = || message!("reconcile-meter-no-volume", text = Arg::typed(&amount.text));
        amount.value_in(Unit::Gallon).ok_or_else(odd)
    };
    let ran = value(end).and_then(|end| Ok(end - start.map_or(Ok(0.0), |(start, _)| value(start))?));
    Some(ran.and_then(|ran| {
        if ran < 0.0 {
            return Err(Message::new("reconcile-meter-lower"));
        }
        let standard = ran * METER_LIMIT_PERCENT / 100.0 / 3.0_f64.sqrt();
        let part =
            Share { from: by("reconcile-from-meter", name), key: shared(view, "meter", name), standard };
        Ok(gallons(ran, vec![part], "reconcile-how-meter", name))
    }))
}

/// Returns the quantity from a tank's level before and after, if the tank and its temperature are known.
fn levels(view: &VisitView, site: Option<&SiteView>) -> Result<Amounted, Message> {
    let level = |purpose| reading(view, purpose, What::Level, Place::StorageTank);
    let ((before, name), (after, _)) = level(Purpose::Arrival)
        .zip(level(Purpose::Final))
        .ok_or_else(|| Message::new("reconcile-nothing-received"))?;
    let tanks = site.map_or(&[][..], |site| &site.tanks);
    let mut sizes: Vec<f64> =
        tanks.iter().filter_map(|tank| tank.water_capacity.value_in(Unit::Gallon)).collect();
    sizes.sort_by(f64::total_cmp);
    sizes.dedup();
    let [capacity] = sizes[..] else {
        return Err(Message::new("reconcile-which-tank"));
    };
    let odd = || Message::new("reconcile-level-no-percentage");
    let before = before.value_in(Unit::Percent).ok_or_else(odd)?;
    let after = after.value_in(Unit::Percent).ok_or_else(odd)?;
    let warm = [Purpose::Final, Purpose::Arrival]
        .iter()
        .find_map(|purpose| reading(view, *purpose, What::Temperature, Place::StorageTank))
        .and_then(|(amount, _)| amount.value_in(Unit::Fahrenheit))
        .ok_or_else(|| Message::new("reconcile-no-tank-temperature"))?;
    let density = view.header.paper.as_ref().and_then(|known| known.value.relative_density.as_ref());
    let rd60 = reading(view, Purpose::Arrival, What::RelativeDensity, Place::Car)
        .map(|(amount, _)| amount)
        .or(density)
        .and_then(|amount| amount.value_in(Unit::One))
        .ok_or_else(|| Message::new("quantity-no-relative-density"))?;
    let factor = ctl::table_24e(warm, rd60).map_err(|error| error.message())?;
    let limit = LEVEL_LIMIT_PERCENT / 100.0 * capacity * factor / 3.0_f64.sqrt() * 2.0_f64.sqrt();
    let part = Share { from: by("reconcile-from-level", name), key: String::new(), standard: limit };
    let value = (after - before) / 100.0 * capacity * factor;
    Ok(gallons(value, vec![part], "reconcile-how-levels", name))
}

fn left(view: &VisitView) -> Result<Amounted, Message> {
    let residue = quantity(view, "residue").ok_or_else(|| Message::new("reconcile-not-recorded"))?;
    let (value, band, computed) = middle(residue)?;
    let mut parts = vec![Share {
        from: Message::new("reconcile-from-final"),
        key: String::new(),
        standard: standard(computed),
    }];
    if band > 0.0 {
        let from = Message::new("reconcile-from-grade");
        parts.push(Share { from, key: String::new(), standard: band / 3.0_f64.sqrt() });
    }
    let instrument = reading(view, Purpose::Final, What::Pressure, Place::Car).map_or("", |(_, name)| name);
    Ok(gallons(value, parts, "reconcile-how-left", instrument))
}

/// Returns the fill, checked as the core checks it on arrival, with its uncertainty.
fn fill(view: &VisitView, found: &Amounted) -> Option<Fill> {
    let known = view.car.capacity.as_ref().filter(|known| !known.disputed)?;
    let shell = Measured::of("shell", &known.value, 0.0).ok()?;
    let rd60 = reading(view, Purpose::Arrival, What::RelativeDensity, Place::Car).map(|(amount, _)| amount);
    let paper = view.header.paper.as_ref().and_then(|known| known.value.relative_density.as_ref());
    let rd60 = rd60.or(paper)?.value_in(Unit::One)?;
    let net =
        Measured { standard: found.standard(), ..Measured::exact("net volume", found.value, found.unit) };
    let rd60 = Measured::within("relative density", rd60, Unit::One, Limited::HYDROMETER.half_width);
    let insulation =
        view.car.insulation.as_ref().filter(|known| !known.disputed).map(|known| match known.value {
            Insulation::None => arrival::Insulation::None,
            Insulation::ThermalProtection => arrival::Insulation::ThermalProtection,
            Insulation::Insulated => arrival::Insulation::Insulated,
        });
    let winter = view.header.paper.as_ref().and_then(|known| known.value.winter_fill);
    // A car whose insulation or season is not known is held to the mildest limit that is possible: nobody is
    // accused of what a lawful fill may be.
    let reference_f =
        insulation.unwrap_or(arrival::Insulation::Insulated).reference_f(winter.unwrap_or(true));
    let least_percent = arrival::LEAST_OUTAGE_PERCENT;
    let checked = arrival::overfill(&net, &shell, &rd60, reference_f, least_percent).ok()?;
    Some(Fill {
        outage_percent: checked.outage.value,
        plus_minus: checked.outage.plus_minus.unwrap_or(0.0),
        least_percent,
        reference_f,
        source: checked.outage.source,
    })
}
