//! The description of a formula for scripts: name, inputs with unit and range, method, source, and what makes
//! the result wrong.
//!
//! This module holds the schema and the inputs that several formulas share. What is said of a formula stands in
//! the catalogues, in `calc-formulas.ftl`. The formulas are listed in
//! `catalogue` and implemented in `calc`; `liquid`, `vapour`, `work` and `judged` connect the two.

use super::Answer;
use super::line_error::LineError;
use super::reading::Reading;
use crate::Message;
use crate::calc::error::input;
use crate::units::Unit;

/// One formula of the script interface.
pub struct Formula {
    /// Its name on the command line.
    pub name: &'static str,
    /// What it needs.
    pub inputs: &'static [Input],
    /// Unit of `value` in the answer.
    pub unit: Unit,
    pub(super) answer: fn(&Reading) -> Result<Answer, LineError>,
}

impl Formula {
    /// Returns what it answers.
    pub fn about(&self) -> Message {
        said(self.name, "")
    }

    /// Returns how the answer is worked out.
    pub fn method(&self) -> Message {
        said(self.name, ".method")
    }

    /// Returns the document and its edition.
    pub fn source(&self) -> Message {
        source_of(self.name)
    }

    /// Returns what would make the answer wrong.
    pub fn wrong_when(&self) -> Message {
        said(self.name, ".wrong")
    }
}

/// Returns the source of the formula of that name, for answers that are a judgement.
pub(super) fn source_of(name: &str) -> Message {
    said(name, ".source")
}

/// Returns what stands in a column of rows.
pub(super) fn column(word: &str) -> Message {
    Message::term("calc_column", word)
}

fn said(name: &str, part: &str) -> Message {
    Message::named(format!("calc_formula-{name}{part}"))
}

/// One input of a formula.
pub struct Input {
    /// Its key in the line.
    pub key: &'static str,
    /// The id of what it means; the word for the input itself says enough where there is none.
    pub(super) about: Option<&'static str>,
    /// Whether it must be there.
    pub need: Need,
    /// What it is.
    pub kind: Kind,
}

/// Whether an input must be there.
#[derive(Clone, Copy)]
pub enum Need {
    /// It must.
    Required,
    /// It may be left out.
    Optional,
    /// Left out, this value is used.
    Default(f64),
}

/// What an input is.
#[derive(Clone, Copy)]
pub enum Kind {
    /// A number.
    Number {
        /// Name for people and for the uncertainty budget.
        name: &'static str,
        /// Its unit.
        unit: Unit,
        /// Lowest value accepted.
        low: f64,
        /// Highest value accepted.
        high: f64,
        /// Half-width presumed when the line states no ±.
        spread: f64,
    },
    /// Mole fractions by fluid, or the name of one fluid.
    Mix,
    /// One of these words.
    Word {
        /// The words.
        words: &'static [&'static str],
    },
    /// true or false.
    Flag,
    /// A list of rows of numbers.
    Rows {
        /// What stands in each column: words whose messages begin with `calc_column-`.
        columns: &'static [&'static str],
    },
}

/// A number input. `range` is lowest and highest; `spread` the half-width presumed without `_pm`.
pub(super) const fn number(
    key: &'static str,
    name: &'static str,
    unit: Unit,
    range: (f64, f64),
    spread: f64,
) -> Input {
    let kind = Kind::Number { name, unit, low: range.0, high: range.1, spread };
    Input { key, about: None, need: Need::Required, kind }
}

/// The composition input.
pub(super) const fn mix() -> Input {
    Input { key: "mix", about: Some("calc_input-mix"), need: Need::Required, kind: Kind::Mix }
}

/// The grade input, in place of a composition.
pub(super) const GRADE: Input = Input {
    key: "grade",
    about: Some("calc_input-grade"),
    need: Need::Optional,
    kind: Kind::Word {
        words: &[
            "hd5_propane",
            "commercial_propane",
            "commercial_butane",
            "butane_propane",
            "isobutane",
            "propylene",
        ],
    },
};

/// What the paper calls the product; only propylene matters, for which Table 24E does not hold.
pub(super) const PRODUCT: Input = Input {
    key: "product",
    about: Some("calc_input-product"),
    need: Need::Optional,
    kind: Kind::Word {
        words: &[
            "propane",
            "butane",
            "isobutane",
            "propylene",
            "lpg",
            "UN1075",
            "UN1978",
            "UN1011",
            "UN1969",
            "UN1077",
        ],
    },
};

/// Inputs that say what gauge a `psig` was read on.
pub(super) const GAUGE_GRADE: Input = Input {
    key: "gauge_grade",
    about: Some("calc_input-gauge_grade"),
    need: Need::Optional,
    kind: Kind::Word { words: &["4A", "3A", "2A", "1A", "A", "B", "C", "D"] },
};
pub(super) const GAUGE_SPAN: Input =
    number("gauge_span", "span of the gauge", Unit::PsiGauge, (1.0, 2_000.0), 0.0)
        .optional()
        .means("calc_input-gauge_span");
pub(super) const GAUGE_OVERDUE: Input = Input {
    key: "gauge_overdue",
    about: Some("calc_input-gauge_overdue"),
    need: Need::Optional,
    kind: Kind::Flag,
};
pub(super) const PSIG: Input =
    number("psig", "pressure", Unit::PsiGauge, (-14.0, 500.0), 0.0).means("calc_input-psig");
pub(super) const PSIA: Input = number("psia", "pressure", Unit::PsiAbsolute, (0.05, 600.0), 0.0);
pub(super) const ELEVATION: Input =
    number("elev_ft", "elevation", Unit::Foot, (-1_500.0, 20_000.0), 0.0).means("calc_input-elev_ft");

impl Input {
    /// Returns what it means.
    pub fn about(&self) -> Message {
        match (self.about, self.kind) {
            (Some(id), _) => Message::new(id),
            (None, Kind::Number { name, .. }) => input(name),
            (None, _) => Message::typed(self.key),
        }
    }

    pub(super) const fn optional(mut self) -> Input {
        self.need = Need::Optional;
        self
    }

    pub(super) const fn or(mut self, value: f64) -> Input {
        self.need = Need::Default(value);
        self
    }

    pub(super) const fn about_mix(self) -> Input {
        self.means("calc_input-mix_methods")
    }

    pub(super) const fn means(mut self, about: &'static str) -> Input {
        self.about = Some(about);
        self
    }
}
