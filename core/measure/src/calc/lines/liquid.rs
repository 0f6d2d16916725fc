//! Script formulas for the liquid: connects `catalogue` entries to `calc`'s functions.

use super::Answer;
use super::line_error::LineError;
use super::reading::{Reading, either, missing};
use super::schema::{Formula, Input, Kind, Need, PRODUCT, mix, number};
use crate::Message;
use crate::calc::ctl::metric::{self, Base};
use crate::calc::outage_table::{self, OutageTable};
use crate::calc::over_short;
use crate::calc::quantity::{self, Expansion};
use crate::calc::sources;
use crate::calc::tank::{self, Heads};
use crate::calc::uncertainty::{Method, propagate};
use crate::calc::{CalcError, Measured, ctl};
use crate::units::Unit;

/// The half-width presumed for a thermometer in a well if the line states none. Common practice, no source.
pub(super) const WELL_F: f64 = 1.0;
/// The half-width presumed for a hydrometer. Common practice, no source.
pub(super) const HYDROMETER: f64 = 0.001;
/// The half-width presumed for a gauge rod. Common practice, no source.
pub(super) const ROD_IN: f64 = 0.125;

/// The temperature of the liquid. Its range extends half a rounding step beyond table 24E, which rounds first
/// and then checks its own range.
const TABLE_F: Input = number("temp_f", "temperature", Unit::Fahrenheit, (-50.85, 199.45), WELL_F)
    .means("calc_input-temp_f_table");
const RD60: Input = number("rd60", "relative density", Unit::One, (0.349_95, 0.688_05), HYDROMETER)
    .means("calc_input-rd60_table");

pub(super) const CTL: Formula = Formula {
    name: "ctl",
    inputs: &[TABLE_F, RD60, mix().optional().about_mix(), PRODUCT],
    unit: Unit::One,
    answer: |line| {
        let temperature = line.number("temp_f")?;
        let rd60 = line.number("rd60")?;
        Expansion::table(rd60.clone(), line.table_mix()?.as_ref())?;
        Ok(ctl::ctl(&temperature, &rd60)?.into())
    },
};

pub(super) const RD60_OBSERVED: Input =
    number("rd_obs", "observed relative density", Unit::One, (0.209_95, 0.740_05), HYDROMETER)
        .means("calc_input-rd_obs");

pub(super) const RD60_FORMULA: Formula = Formula {
    name: "rd60",
    inputs: &[TABLE_F, RD60_OBSERVED, mix().optional().about_mix(), PRODUCT],
    unit: Unit::One,
    answer: |line| {
        let (temperature, observed) = (line.number("temp_f")?, line.number("rd_obs")?);
        Expansion::table(observed.clone(), line.table_mix()?.as_ref())?;
        Ok(ctl::rd60(&temperature, &observed)?.into())
    },
};

pub(super) const OUTAGE_VOLUME: Formula = Formula {
    name: "outage_volume",
    inputs: &[
        number("outage_in", "outage", Unit::Inch, (0.0, 240.0), ROD_IN).means("calc_input-outage_in"),
        number("diameter_in", "inside diameter", Unit::Inch, (12.0, 240.0), 0.0),
        number("total_gal", "total volume", Unit::Gallon, (10.0, 100_000.0), 0.0)
            .means("calc_input-total_gal"),
        Input {
            key: "heads",
            about: Some("calc_input-heads"),
            need: Need::Optional,
            kind: Kind::Word { words: &["2:1", "flat", "hemispherical"] },
        },
        number("head_depth_in", "head depth", Unit::Inch, (0.0, 120.0), 0.0)
            .optional()
            .means("calc_input-head_depth_in"),
    ],
    unit: Unit::Gallon,
    answer: |line| {
        let heads = match (line.word("heads")?, line.optional("head_depth_in")?) {
            (Some(_), Some(_)) => {
                return Err(LineError::new("inconsistent_input", either("heads", "head_depth_in")));
            }
            (Some("flat"), None) => Heads::Flat,
            (Some("hemispherical"), None) => Heads::Hemispherical,
            (_, None) => Heads::TwoToOne,
            (None, Some(depth)) => Heads::Depth(Unit::Inch.to_si(depth.value)),
        };
        let [outage, diameter, total] = ["outage_in", "diameter_in", "total_gal"].map(|key| line.number(key));
        Ok(tank::outage_volume(&outage?, &diameter?, &total?, heads)?.into())
    },
};

pub(super) const NET_VOLUME: Formula = Formula {
    name: "net_volume",
    inputs: &[
        number("gross_gal", "gross volume", Unit::Gallon, (0.0, 1_000_000.0), 0.0)
            .means("calc_input-gross_gal"),
        TABLE_F,
        RD60.optional(),
        mix().optional().about_mix(),
        PRODUCT,
    ],
    unit: Unit::Gallon,
    answer: |line| {
        let (gross, temperature) = (line.number("gross_gal")?, line.number("temp_f")?);
        let expansion = expansion(line)?;
        let net = quantity::net_volume(&gross, &temperature, &expansion)?;
        let as_input = Measured::stated("net volume", net.value, Unit::Gallon, net.plus_minus.unwrap_or(0.0));
        let litres = quantity::litres_15c(&as_input, &expansion)?;
        Ok(Answer::from(net).with("litres_15c", litres))
    },
};

/// Returns table 24E, or the density ratio if the table is not valid for the mix.
pub(super) fn expansion(line: &Reading) -> Result<Expansion, LineError> {
    use crate::calc::fluid::Fluid;
    use crate::units::{Finding, Severity};
    if let Some(mix) = line.table_mix()? {
        let by_table = mix.fraction(Fluid::Propylene) <= quantity::PROPYLENE_LIMIT && line.has("rd60");
        if !by_table {
            line.find(Finding::new(
                "density_ratio_used",
                Severity::Note,
                Message::new("calc-density-ratio-used"),
            ));
            return Ok(Expansion::Ratio { mix });
        }
    }
    Ok(Expansion::Table { rd60: line.number("rd60")? })
}

pub(super) const WEIGHT: Formula = Formula {
    name: "weight",
    inputs: &[
        number("net_gal", "net volume", Unit::Gallon, (0.0, 1_000_000.0), 0.0).means("calc_input-net_60f"),
        number("rd60", "relative density", Unit::One, (0.35, 0.688), HYDROMETER),
        Input {
            key: "in",
            about: Some("calc_input-weight_in"),
            need: Need::Optional,
            kind: Kind::Word { words: &["vacuum", "air"] },
        },
    ],
    unit: Unit::Pound,
    answer: |line| {
        let weights = quantity::weights(&line.number("net_gal")?, &line.number("rd60")?)?;
        let main = if line.word("in")? == Some("air") { &weights.lb_air } else { &weights.lb_vacuum };
        Ok(Answer::from(main.clone())
            .with("lb_vacuum", weights.lb_vacuum)
            .with("lb_air", weights.lb_air)
            .with("kg_vacuum", weights.kg_vacuum)
            .with("kg_air", weights.kg_air))
    },
};

const BASE: Input = Input {
    key: "base_c",
    about: Some("calc_input-base_c"),
    need: Need::Optional,
    kind: Kind::Word { words: &["15", "20"] },
};
const METRIC_C: Input =
    number("temp_c", "temperature", Unit::Celsius, (-46.025, 93.025), 0.5).means("calc_input-temp_c");

fn base(line: &Reading) -> Result<Base, LineError> {
    Ok(if line.word("base_c")? == Some("20") { Base::C20 } else { Base::C15 })
}

/// Returns a metric table's value with the uncertainty from its inputs. The table rounds, so the uncertainty
/// is based on differences of rounded values.
fn metric_answer(
    line: &Reading,
    density: &'static str,
    unit: Unit,
    table: fn(Base, f64, f64) -> Result<f64, CalcError>,
    (formula, source): (&str, &str),
) -> Result<Answer, LineError> {
    let base = base(line)?;
    let (temperature, density) = (line.number("temp_c")?, line.number(density)?);
    let value = propagate(&[&temperature, &density], Method::Relative("the table itself", 0.001), |x| {
        table(base, x[0], x[1])
    })?;
    Ok(value.computed(unit, formula, &base.of(sources::cited(source)), Vec::new()).into())
}

pub(super) const CTL_METRIC: Formula = Formula {
    name: "ctl_metric",
    inputs: &[
        METRIC_C,
        number("density", "density at the base", Unit::KilogramPerCubicMetre, (331.65, 687.85), 1.0)
            .means("calc_input-density_base"),
        BASE,
    ],
    unit: Unit::One,
    answer: |line| {
        let named = ("ctl_metric/1", sources::TABLES_54E_60E);
        metric_answer(line, "density", Unit::One, metric::ctl, named)
    },
};

pub(super) const BASE_DENSITY: Formula = Formula {
    name: "base_density",
    inputs: &[
        METRIC_C,
        number("density_obs", "observed density", Unit::KilogramPerCubicMetre, (209.95, 740.05), 1.0)
            .means("calc_input-density_obs"),
        BASE,
    ],
    unit: Unit::KilogramPerCubicMetre,
    answer: |line| {
        let named = ("base_density/1", sources::TABLES_53E_59E);
        metric_answer(line, "density_obs", Unit::KilogramPerCubicMetre, metric::base_density, named)
    },
};

pub(super) const OUTAGE_TABLE: Formula = Formula {
    name: "outage_table",
    inputs: &[
        number("outage_in", "outage", Unit::Inch, (0.0, 240.0), ROD_IN).means("calc_input-outage_in_rows"),
        Input {
            key: "table",
            about: Some("calc_input-table"),
            need: Need::Required,
            kind: Kind::Rows { columns: &["outage", "liquid"] },
        },
    ],
    unit: Unit::Gallon,
    answer: |line| {
        let rows = line.rows("table")?;
        let rows = rows.ok_or_else(|| missing("table", Message::new("calc-line-wants-rows")))?;
        let rows: Vec<(f64, f64)> =
            rows.iter().filter_map(|row| Some((*row.first()?, *row.get(1)?))).collect();
        let (table, findings) =
            OutageTable::from_rows(&rows).map_err(|error| LineError::new("bad_table", error.message()))?;
        findings.into_iter().for_each(|finding| line.find(finding));
        Ok(outage_table::liquid_volume(&line.number("outage_in")?, &table)?.into())
    },
};

pub(super) const OVER_SHORT: Formula = Formula {
    name: "over_short",
    inputs: &[
        number("billed", "billed", Unit::Gallon, (1e-9, 1e7), 0.0).means("calc_input-billed"),
        number("found", "found", Unit::Gallon, (0.0, 1e7), 0.0).means("calc_input-found"),
        Input {
            key: "unit",
            about: Some("calc_input-unit"),
            need: Need::Optional,
            kind: Kind::Word { words: &["gal", "L", "lb", "kg"] },
        },
    ],
    unit: Unit::Gallon,
    answer: |line| {
        let unit = line.word("unit")?.and_then(|word| Unit::read(word).ok()).unwrap_or(Unit::Gallon);
        let [billed, found] = ["billed", "found"].map(|key| line.number(key).map(|m| Measured { unit, ..m }));
        let result = over_short::over_short(&billed?, &found?)?;
        let mut detail = serde_json::json!({ "percent": result.percent, "verdict": result.verdict });
        if let Some(multiples) = result.multiples {
            detail["multiples"] = serde_json::json!(multiples);
        }
        Ok(Answer::from(result.difference).detailed(detail))
    },
};
