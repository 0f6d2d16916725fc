//! The products that a paper may name, and the description that the law requires for their residue.
//!
//! This module holds UN numbers, proper shipping names, the default grade and emergency guide of each
//! product, and the lines of the residue paper. Compositions are in `fluid::grade`. The view and the office
//! call it.
//!
//! UN numbers, names and class: 49 CFR 172.101, from memory; check the current text.

use serde::{Deserialize, Serialize};

use super::fluid::grade::Grade;
use super::sources::cited;
use crate::{Message, message};

/// A product by its UN number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum Product {
    /// Petroleum gases, liquefied: any LPG.
    #[serde(rename = "UN1075")]
    Un1075,
    /// Propane.
    #[serde(rename = "UN1978")]
    Un1978,
    /// Butane.
    #[serde(rename = "UN1011")]
    Un1011,
    /// Isobutane.
    #[serde(rename = "UN1969")]
    Un1969,
    /// Propylene.
    #[serde(rename = "UN1077")]
    Un1077,
}

impl Product {
    /// Every product known here.
    pub const ALL: [Product; 5] =
        [Product::Un1075, Product::Un1978, Product::Un1011, Product::Un1969, Product::Un1077];

    /// "UN1978".
    pub const fn un_number(self) -> &'static str {
        match self {
            Product::Un1075 => "UN1075",
            Product::Un1978 => "UN1978",
            Product::Un1011 => "UN1011",
            Product::Un1969 => "UN1969",
            Product::Un1077 => "UN1077",
        }
    }

    /// The proper shipping name.
    pub const fn shipping_name(self) -> &'static str {
        match self {
            Product::Un1075 => "Petroleum gases, liquefied",
            Product::Un1978 => "Propane",
            Product::Un1011 => "Butane",
            Product::Un1969 => "Isobutane",
            Product::Un1077 => "Propylene",
        }
    }

    /// Hazard class or division.
    pub const fn class(self) -> &'static str {
        "2.1"
    }

    /// The grade to presume when nothing else is known of the composition. Under UN1075 it is special-duty
    /// propane, the usual LPG by rail; common practice, no source.
    pub const fn presumed_grade(self) -> Grade {
        match self {
            Product::Un1075 => Grade::Hd5Propane,
            Product::Un1978 => Grade::CommercialPropane,
            Product::Un1011 => Grade::CommercialButane,
            Product::Un1969 => Grade::Isobutane,
            Product::Un1077 => Grade::Propylene,
        }
    }

    /// The guide an emergency crew opens for this product. All of these are flammable gases, class 2.1.
    /// From memory: to be compared with the book before anyone relies on it.
    pub fn emergency_guide(self) -> EmergencyGuide {
        EmergencyGuide {
            un_number: self.un_number(),
            number: "115",
            title: Message::new("calc-guide-115"),
            source: Message::new("calc-guide-source"),
        }
    }

    /// The product of a UN number as people write it: "UN1978", "un 1978", "1978".
    pub fn read(text: &str) -> Option<Product> {
        let digits: String = text.chars().filter(char::is_ascii_digit).collect();
        let letters: String = text.chars().filter(char::is_ascii_alphabetic).collect();
        let named =
            letters.is_empty() || letters.eq_ignore_ascii_case("UN") || letters.eq_ignore_ascii_case("NA");
        Product::ALL.into_iter().find(|product| named && product.un_number()[2..] == digits)
    }

    /// Basic description in the order of 49 CFR 172.202: UN number, name, class.
    pub fn basic_description(self) -> String {
        format!("{}, {}, {}", self.un_number(), self.shipping_name(), self.class())
    }

    /// The residue paper's description, 49 CFR 172.203(e)(2): "RESIDUE: LAST CONTAINED" with the basic
    /// description. The quantity stands where 172.202 wants one: one car.
    pub fn residue_description(self) -> String {
        format!("1 TC, RESIDUE: LAST CONTAINED {}", self.basic_description())
    }
}

/// Where a grade was taken from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GradeFrom {
    /// Somebody stated it.
    Stated,
    /// The product's name on the paper.
    Name,
    /// The relative density at 60 °F on the paper.
    Density,
    /// The identification number: what usually moves under it.
    Number,
}

/// Relative densities at 60 °F up to which a product is taken as propane. Propane has 0.507 and 2.5 % of
/// butane adds 0.002 (GPA 2145, from memory).
const PROPANE_RD60: f64 = 0.515;
/// Relative densities at 60 °F from which a product is taken as butane. Isobutane has 0.563, n-butane 0.584
/// (GPA 2145, from memory), and the lightest commercial butane about 0.56.
const BUTANE_RD60: f64 = 0.557;

/// Returns the grade of a product and where it is from. A grade that somebody stated is taken as it is. Under
/// UN1075, which names no grade, the name and the relative density on the paper decide; where they contradict
/// each other, anything from butane to propane is possible. Propylene and butanes have numbers of their own.
pub fn grade_of(
    product: Product,
    stated: Option<Grade>,
    name: &str,
    rd60: Option<f64>,
) -> (Grade, GradeFrom) {
    if let Some(stated) = stated {
        return (stated, GradeFrom::Stated);
    }
    if product != Product::Un1075 {
        return (product.presumed_grade(), GradeFrom::Number);
    }
    let by_density = rd60.filter(|rd60| rd60.is_finite()).map(|rd60| match rd60 {
        light if light <= PROPANE_RD60 => Grade::Hd5Propane,
        heavy if heavy >= BUTANE_RD60 => Grade::CommercialButane,
        _ => Grade::ButanePropane,
    });
    match (grade_named(name), by_density) {
        (Some(named), Some(read)) if !fits(named, read) => (Grade::ButanePropane, GradeFrom::Density),
        (Some(named), _) => (named, GradeFrom::Name),
        (None, Some(read)) => (read, GradeFrom::Density),
        (None, None) => (product.presumed_grade(), GradeFrom::Number),
    }
}

/// Returns the grade that a product's name says, in English, Spanish or French.
fn grade_named(name: &str) -> Option<Grade> {
    let name = name.to_lowercase();
    let has = |words: &[&str]| words.iter().any(|word| name.contains(word));
    let propane = has(&["propan"]);
    let isobutane = has(&["isobutan"]);
    let butane = has(&["butan"]) && !isobutane;
    match (propane, butane, isobutane, has(&["propylen", "propilen", "propylèn"])) {
        (_, _, _, true) => Some(Grade::Propylene),
        (true, true, _, _) | (true, _, true, _) => Some(Grade::ButanePropane),
        (true, ..) if has(&["commercial", "comercial"]) => Some(Grade::CommercialPropane),
        (true, ..) => Some(Grade::Hd5Propane),
        (_, _, true, _) => Some(Grade::Isobutane),
        (_, true, ..) => Some(Grade::CommercialButane),
        _ if has(&["hd-5", "hd5", "hd 5"]) => Some(Grade::Hd5Propane),
        _ => None,
    }
}

/// Returns whether a grade by name is possible with a grade by density.
fn fits(named: Grade, read: Grade) -> bool {
    match named {
        Grade::Hd5Propane => read == Grade::Hd5Propane,
        // Commercial propane may be mostly propylene, which has 0.522.
        Grade::CommercialPropane => read != Grade::CommercialButane,
        Grade::CommercialButane | Grade::Isobutane => read == Grade::CommercialButane,
        Grade::ButanePropane | Grade::Propylene => true,
    }
}

/// Which page of the guidebook an emergency crew opens.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
pub struct EmergencyGuide {
    /// The product it is for, as "UN1075".
    pub un_number: &'static str,
    /// The guide's number.
    pub number: &'static str,
    /// What the guide is about.
    pub title: Message,
    /// Where the number is published.
    pub source: Message,
}

/// What the residue's paper must say and what else holds for it, each with where that is written.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ResiduePaper {
    /// The line for the shipping paper.
    pub description: String,
    /// What else to see to, each with its source.
    pub reminders: Vec<Reminder>,
}

/// A thing to see to and where it is written.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Reminder {
    /// What to see to.
    pub text: Message,
    /// Where it is written.
    pub source: Message,
}

/// The residue paper's lines for a product. The shipper and local rules decide; this is a draft.
pub fn residue_paper(product: Product) -> ResiduePaper {
    let reminder = |id, source| Reminder { text: Message::new(id), source };
    let from_memory = |citation| message!("calc-source-from-memory", source = cited(citation));
    ResiduePaper {
        description: product.residue_description(),
        reminders: vec![
            reminder("calc-paper-placards", cited("49 CFR 172.514(b)")),
            reminder("calc-paper-full-load", cited("49 CFR 173.29(a)")),
            reminder("calc-paper-telephone", from_memory("49 CFR 172.604")),
            reminder("calc-paper-kept", cited("49 CFR 172.201(e)")),
        ],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_residue_line_is_in_the_order_law_wants() {
        assert_eq!(
            Product::Un1978.residue_description(),
            "1 TC, RESIDUE: LAST CONTAINED UN1978, Propane, 2.1"
        );
    }

    #[test]
    fn every_product_has_the_guide_for_flammable_gases_and_says_where_it_is_from() {
        for product in Product::ALL {
            let guide = product.emergency_guide();
            assert_eq!((guide.un_number, guide.number), (product.un_number(), "115"));
            assert!(farsiding_words::english(&guide.source).contains("from memory"));
        }
    }

    #[test]
    fn every_reminder_of_the_residue_paper_says_where_it_is_written() {
        for product in Product::ALL {
            let paper = residue_paper(product);
            assert!(paper.description.contains(product.un_number()));
            assert!(paper.reminders.len() >= 3);
            assert!(
                paper
                    .reminders
                    .iter()
                    .all(|reminder| farsiding_words::english(&reminder.source).starts_with("49 CFR"))
            );
        }
    }

    #[test]
    fn un1075_is_propane_unless_the_paper_says_otherwise() {
        let of = |name, rd60| grade_of(Product::Un1075, None, name, rd60);
        let lpg = "Petroleum gases, liquefied";
        assert_eq!(of(lpg, None), (Grade::Hd5Propane, GradeFrom::Number));
        assert_eq!(of(lpg, Some(0.508)), (Grade::Hd5Propane, GradeFrom::Density));
        assert_eq!(of(lpg, Some(0.584)), (Grade::CommercialButane, GradeFrom::Density));
        assert_eq!(of(lpg, Some(0.545)), (Grade::ButanePropane, GradeFrom::Density));
        assert_eq!(of("LPG (PROPANE HD-5)", None), (Grade::Hd5Propane, GradeFrom::Name));
        assert_eq!(of("Commercial propane", None), (Grade::CommercialPropane, GradeFrom::Name));
        assert_eq!(of("Butano", Some(0.58)), (Grade::CommercialButane, GradeFrom::Name));
        assert_eq!(of("propane-butane mix", Some(0.53)), (Grade::ButanePropane, GradeFrom::Name));
        // A name that the density contradicts leaves everything open.
        assert_eq!(of("Propane", Some(0.58)), (Grade::ButanePropane, GradeFrom::Density));
        let stated = grade_of(Product::Un1075, Some(Grade::Isobutane), "Propane", Some(0.508));
        assert_eq!(stated, (Grade::Isobutane, GradeFrom::Stated));
        assert_eq!(grade_of(Product::Un1011, None, "Propane", None).0, Grade::CommercialButane);
    }

    /// Relative densities at 60 °F of the equations of state, against which the bounds were set.
    #[test]
    fn each_pure_fluid_is_on_its_side_of_the_bounds() {
        use super::super::fluid::{Fluid, Mix, liquid_60f};
        use super::super::water::DENSITY_60F;
        let rd60 = |fluid| liquid_60f(&Mix::pure(fluid)).map(|density| density / DENSITY_60F);
        assert!(rd60(Fluid::Propane).is_ok_and(|rd60| rd60 < PROPANE_RD60));
        assert!(rd60(Fluid::Isobutane).is_ok_and(|rd60| rd60 > BUTANE_RD60));
        assert!(rd60(Fluid::NButane).is_ok_and(|rd60| rd60 > BUTANE_RD60));
        for mix in Grade::Hd5Propane.mixes().unwrap_or_default() {
            assert!(liquid_60f(&mix).is_ok_and(|density| density / DENSITY_60F <= PROPANE_RD60));
        }
    }

    #[test]
    fn un_numbers_are_read_as_people_write_them() {
        for text in ["UN1978", "un 1978", "1978", "UN-1978"] {
            assert_eq!(Product::read(text), Some(Product::Un1978), "{text}");
        }
        for text in ["", "UN1979", "propane 1978", "19780"] {
            assert_eq!(Product::read(text), None, "{text}");
        }
    }
}
