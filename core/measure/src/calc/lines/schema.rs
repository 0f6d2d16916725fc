//! The description of a formula for scripts: name, inputs with unit and range, method, source, and what makes
//! the result wrong.
//!
//! This module holds the schema and the inputs that several formulas share. The formulas are listed in
//! `catalogue` and implemented in `calc`; `liquid`, `vapour`, `work` and `judged` connect the two.

use super::Answer;
use super::reading::Reading;
use super::refusal::Refusal;
use crate::units::Unit;

/// One formula of the script interface.
pub struct Formula {
    /// Its name on the command line.
    pub name: &'static str,
    /// What it answers.
    pub about: &'static str,
    /// What it needs.
    pub inputs: &'static [Input],
    /// Unit of `value` in the answer.
    pub unit: Unit,
    /// How it is worked out.
    pub method: &'static str,
    /// Document and edition.
    pub source: &'static str,
    /// What would make the answer wrong.
    pub wrong_when: &'static str,
    pub(super) answer: fn(&Reading) -> Result<Answer, Refusal>,
}

/// One input of a formula.
pub struct Input {
    /// Its key in the line.
    pub key: &'static str,
    /// What it means.
    pub about: &'static str,
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
        /// What stands in each column.
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
    Input { key, about: name, need: Need::Required, kind }
}

/// The composition input.
pub(super) const fn mix() -> Input {
    Input { key: "mix", about: "composition, mole fractions", need: Need::Required, kind: Kind::Mix }
}

/// The grade input, in place of a composition.
pub(super) const GRADE: Input = Input {
    key: "grade",
    about: "in place of mix when the composition is only presumed; the answer is then a band",
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
    about: "product or UN number; Table 24E is refused for propylene",
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
    about: "ASME B40.100 grade of the gauge; its limits replace the presumed ones",
    need: Need::Optional,
    kind: Kind::Word { words: &["4A", "3A", "2A", "1A", "A", "B", "C", "D"] },
};
pub(super) const GAUGE_SPAN: Input =
    number("gauge_span", "span of the gauge", Unit::PsiGauge, (1.0, 2_000.0), 0.0)
        .optional()
        .about("full scale of the gauge, with gauge_grade");
pub(super) const GAUGE_OVERDUE: Input = Input {
    key: "gauge_overdue",
    about: "whether its calibration is overdue; doubles its limits",
    need: Need::Optional,
    kind: Kind::Flag,
};
pub(super) const PSIG: Input = number("psig", "pressure", Unit::PsiGauge, (-14.0, 500.0), 0.0)
    .about("gauge pressure at the car; presumed ± is a grade B gauge of 60, 160 or 400 psi");
pub(super) const PSIA: Input = number("psia", "pressure", Unit::PsiAbsolute, (0.05, 600.0), 0.0);
pub(super) const ELEVATION: Input =
    number("elev_ft", "elevation", Unit::Foot, (-1_500.0, 20_000.0), 0.0).about("elevation of the site");

impl Input {
    pub(super) const fn optional(mut self) -> Input {
        self.need = Need::Optional;
        self
    }

    pub(super) const fn or(mut self, value: f64) -> Input {
        self.need = Need::Default(value);
        self
    }

    pub(super) const fn about_mix(self) -> Input {
        self.about("composition, mole fractions; refuses or replaces methods that do not hold for it")
    }

    pub(super) const fn about(mut self, about: &'static str) -> Input {
        self.about = about;
        self
    }
}
