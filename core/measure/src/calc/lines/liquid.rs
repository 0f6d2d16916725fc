//! Script formulas for the liquid: connects `catalogue` entries to `calc`'s functions.

use super::Answer;
use super::reading::Reading;
use super::refusal::Refusal;
use super::schema::{Formula, Input, Kind, Need, PRODUCT, mix, number};
use crate::calc::ctl::metric::{self, Base};
use crate::calc::outage_table::{self, OutageTable};
use crate::calc::over_short;
use crate::calc::quantity::{self, Expansion};
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
    .about("temperature of the liquid; the table covers −50.8 to 199.4 °F");
const RD60: Input = number("rd60", "relative density at 60 °F", Unit::One, (0.349_95, 0.688_05), HYDROMETER)
    .about("relative density at 60 °F; the table covers 0.3500 to 0.6880");

pub(super) const CTL: Formula = Formula {
    name: "ctl",
    about: "correction of liquid volume to 60 °F",
    inputs: &[TABLE_F, RD60, mix().optional().about_mix(), PRODUCT],
    unit: Unit::One,
    method: "Table 24E; inputs rounded to 0.1 °F and 0.0001, result to 0.00001, half away from zero",
    source: ctl::SOURCE_24E,
    wrong_when: "propylene (refused when the mix says so), a density at another temperature, a temperature that is not the bulk liquid's",
    answer: |line| {
        let temperature = line.number("temp_f")?;
        let rd60 = line.number("rd60")?;
        Expansion::table(rd60.clone(), line.table_mix()?.as_ref())?;
        Ok(ctl::ctl(&temperature, &rd60)?.into())
    },
};

pub(super) const RD60_OBSERVED: Input =
    number("rd_obs", "observed relative density", Unit::One, (0.209_95, 0.740_05), HYDROMETER)
        .about("relative density as observed at temp_f; the table covers 0.2100 to 0.7400");

pub(super) const RD60_FORMULA: Formula = Formula {
    name: "rd60",
    about: "relative density at 60 °F from one observed at another temperature",
    inputs: &[TABLE_F, RD60_OBSERVED, mix().optional().about_mix(), PRODUCT],
    unit: Unit::One,
    method: "Table 23E; inputs rounded to 0.1 °F and 0.0001, result to 0.0001, half away from zero",
    source: ctl::SOURCE_23E,
    wrong_when: "propylene, a reading not taken at vapour pressure or at the temperature given",
    answer: |line| {
        let (temperature, observed) = (line.number("temp_f")?, line.number("rd_obs")?);
        Expansion::table(observed.clone(), line.table_mix()?.as_ref())?;
        Ok(ctl::rd60(&temperature, &observed)?.into())
    },
};

pub(super) const OUTAGE_VOLUME: Formula = Formula {
    name: "outage_volume",
    about: "liquid in a horizontal shell under an outage",
    inputs: &[
        number("outage_in", "outage", Unit::Inch, (0.0, 240.0), ROD_IN)
            .about("from the top of the shell's inside down to the liquid; at most the diameter"),
        number("diameter_in", "inside diameter", Unit::Inch, (12.0, 240.0), 0.0),
        number("total_gal", "total volume", Unit::Gallon, (10.0, 100_000.0), 0.0)
            .about("shell full of liquid"),
        Input {
            key: "heads",
            about: "shape of the heads, 2:1 when not said",
            need: Need::Optional,
            kind: Kind::Word { words: &["2:1", "flat", "hemispherical"] },
        },
        number("head_depth_in", "head depth", Unit::Inch, (0.0, 120.0), 0.0)
            .optional()
            .about("depth of one head, instead of its shape"),
    ],
    unit: Unit::Gallon,
    method: "closed form for a cylinder with spheroidal heads; its length follows from the total",
    source: tank::SOURCE,
    wrong_when: "a sloping or dented shell, another datum than the top of the shell, an owner's outage table that says otherwise (it governs)",
    answer: |line| {
        let heads = match (line.word("heads")?, line.optional("head_depth_in")?) {
            (Some(_), Some(_)) => {
                return Err(Refusal::new(
                    "inconsistent_input",
                    "give either heads or head_depth_in, not both",
                ));
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
    about: "net gallons at 60 °F of a liquid volume at its own temperature",
    inputs: &[
        number("gross_gal", "gross volume", Unit::Gallon, (0.0, 1_000_000.0), 0.0)
            .about("liquid at temp_f; state gross_gal_pm from the gauging"),
        TABLE_F,
        RD60.optional(),
        mix().optional().about_mix(),
        PRODUCT,
    ],
    unit: Unit::Gallon,
    method: "volume × CTL of Table 24E; with more than 10 % propylene in the mix, × the density ratio of the equation of state",
    source: ctl::SOURCE_24E,
    wrong_when: "a temperature that is not the bulk liquid's, a density that is not this load's",
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
pub(super) fn expansion(line: &Reading) -> Result<Expansion, Refusal> {
    use crate::calc::fluid::Fluid;
    use crate::units::{Finding, Severity};
    if let Some(mix) = line.table_mix()? {
        let by_table = mix.fraction(Fluid::Propylene) <= quantity::PROPYLENE_LIMIT && line.has("rd60");
        if !by_table {
            line.find(Finding::new(
                "density_ratio_used",
                Severity::Note,
                "The correction is the density ratio of the equation of state, not Table 24E.",
            ));
            return Ok(Expansion::Ratio { mix });
        }
    }
    Ok(Expansion::Table { rd60: line.number("rd60")? })
}

pub(super) const WEIGHT: Formula = Formula {
    name: "weight",
    about: "weight of a net volume at 60 °F",
    inputs: &[
        number("net_gal", "net volume", Unit::Gallon, (0.0, 1_000_000.0), 0.0).about("at 60 °F"),
        number("rd60", "relative density at 60 °F", Unit::One, (0.35, 0.688), HYDROMETER),
        Input {
            key: "in",
            about: "which weight is `value`, vacuum when not said; all four stand under also",
            need: Need::Optional,
            kind: Kind::Word { words: &["vacuum", "air"] },
        },
    ],
    unit: Unit::Pound,
    method: "net gal × relative density × water at 60 °F, 8.33719 lb/gal in vacuum or 8.32828 in air",
    source: "GPA 2145 / 29 CFR and WAC practice for water at 60 °F",
    wrong_when: "a gross volume taken for net",
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
    about: "base temperature, 15 °C when not said",
    need: Need::Optional,
    kind: Kind::Word { words: &["15", "20"] },
};
const METRIC_C: Input = number("temp_c", "temperature", Unit::Celsius, (-46.025, 93.025), 0.5)
    .about("temperature of the liquid; the table covers −46 to 93 °C");

fn base(line: &Reading) -> Result<Base, Refusal> {
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
) -> Result<Answer, Refusal> {
    let base = base(line)?;
    let (temperature, density) = (line.number("temp_c")?, line.number(density)?);
    let value = propagate(&[&temperature, &density], Method::Relative("the table itself", 0.001), |x| {
        table(base, x[0], x[1])
    })?;
    Ok(value.computed(unit, formula, &format!("{source}, base {}", base.label()), Vec::new()).into())
}

pub(super) const CTL_METRIC: Formula = Formula {
    name: "ctl_metric",
    about: "correction of liquid volume to 15 °C or 20 °C",
    inputs: &[
        METRIC_C,
        number("density", "density at the base", Unit::KilogramPerCubicMetre, (331.65, 687.85), 1.0)
            .about("at the base temperature; 351.7 to 687.8 at 15 °C, 331.7 to 683.6 at 20 °C"),
        BASE,
    ],
    unit: Unit::One,
    method: "Table 54E (15 °C) or 60E (20 °C); inputs rounded to 0.05 °C and 0.1 kg/m³, result to 0.00001",
    source: "API MPMS 11.2.4 (2007) / GPA TP-27, Tables 54E and 60E",
    wrong_when: "propylene, a density at another base",
    answer: |line| {
        let named = ("ctl_metric/1", "API MPMS 11.2.4 (2007) / GPA TP-27, Tables 54E and 60E");
        metric_answer(line, "density", Unit::One, metric::ctl, named)
    },
};

pub(super) const BASE_DENSITY: Formula = Formula {
    name: "base_density",
    about: "density at 15 °C or 20 °C from one observed",
    inputs: &[
        METRIC_C,
        number("density_obs", "observed density", Unit::KilogramPerCubicMetre, (209.95, 740.05), 1.0)
            .about("at temp_c; the table covers 210 to 740"),
        BASE,
    ],
    unit: Unit::KilogramPerCubicMetre,
    method: "Table 53E (15 °C) or 59E (20 °C); inputs rounded to 0.05 °C and 0.1 kg/m³, result to 0.1",
    source: "API MPMS 11.2.4 (2007) / GPA TP-27, Tables 53E and 59E",
    wrong_when: "propylene, a reading not taken at vapour pressure or at the temperature given",
    answer: |line| {
        let named = ("base_density/1", "API MPMS 11.2.4 (2007) / GPA TP-27, Tables 53E and 59E");
        metric_answer(line, "density_obs", Unit::KilogramPerCubicMetre, metric::base_density, named)
    },
};

pub(super) const OUTAGE_TABLE: Formula = Formula {
    name: "outage_table",
    about: "liquid under an outage by the owner's table",
    inputs: &[
        number("outage_in", "outage", Unit::Inch, (0.0, 240.0), ROD_IN).about("within the table's rows"),
        Input {
            key: "table",
            about: "four rows or more, outage and liquid",
            need: Need::Required,
            kind: Kind::Rows { columns: &["outage in", "liquid gal"] },
        },
    ],
    unit: Unit::Gallon,
    method: "monotone cubic through the rows; coarse steps and mistyped rows are pointed out",
    source: "owner's outage table; Hyman, SIAM J. Sci. Stat. Comput. 4 (1983) 645–654",
    wrong_when: "another car's table, another datum, a temperature far from the table's",
    answer: |line| {
        let rows = line.rows("table")?.ok_or_else(|| {
            Refusal::from(CalcError::MissingInput { input: "table".to_owned(), unit: "rows".to_owned() })
        })?;
        let rows: Vec<(f64, f64)> =
            rows.iter().filter_map(|row| Some((*row.first()?, *row.get(1)?))).collect();
        let (table, findings) =
            OutageTable::from_rows(&rows).map_err(|error| Refusal::new("bad_table", error.to_string()))?;
        findings.into_iter().for_each(|finding| line.find(finding));
        Ok(outage_table::liquid_volume(&line.number("outage_in")?, &table)?.into())
    },
};

pub(super) const OVER_SHORT: Formula = Formula {
    name: "over_short",
    about: "found less billed, and in multiples of its uncertainty",
    inputs: &[
        number("billed", "billed", Unit::Gallon, (1e-9, 1e7), 0.0).about("net at 60 °F, in `unit`"),
        number("found", "found", Unit::Gallon, (0.0, 1e7), 0.0)
            .about("net at 60 °F, in `unit`; state found_pm"),
        Input {
            key: "unit",
            about: "unit of both, gal when not said",
            need: Need::Optional,
            kind: Kind::Word { words: &["gal", "L", "lb", "kg"] },
        },
    ],
    unit: Unit::Gallon,
    method: "difference; uncertainties in squares; over or short only beyond ± at 95 %",
    source: "JCGM 100:2008",
    wrong_when: "gross against net, vacuum against air, another base temperature",
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
