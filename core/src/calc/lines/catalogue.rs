//! What formulas there are for scripts: name, inputs with unit and range, method, source, what to doubt.
//!
//! `farsiding calc --list` prints this table; `lines::answer` reads a line against it. The formulas
//! themselves live in `calc`; `first` and its neighbours only connect the two.

use super::reading::Reading;
use super::refusal::Refusal;
use super::{Answer, first};
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
    /// Free text.
    Text,
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

/// Every formula, in the order they are listed.
pub fn catalogue() -> &'static [Formula] {
    &[first::CTL, first::RD60_FORMULA, first::OUTAGE_VOLUME, first::NET_VOLUME, first::WEIGHT, first::RESIDUE]
}
