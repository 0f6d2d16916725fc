//! The products a paper may name, and the description law wants of their residue.
//!
//! Lives here: UN numbers, proper shipping names, the default grade of each, its emergency guide, the
//! residue paper's lines.
//! Does not live here: compositions (see `fluid::grade`). Called by the view and the office.
//!
//! UN numbers, names and class: 49 CFR 172.101, from memory; check the current text.

use serde::{Deserialize, Serialize};

use super::fluid::grade::Grade;

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

    /// The grade to presume when nothing else is known of the composition.
    pub const fn presumed_grade(self) -> Grade {
        match self {
            Product::Un1075 => Grade::ButanePropane,
            Product::Un1978 => Grade::CommercialPropane,
            Product::Un1011 => Grade::CommercialButane,
            Product::Un1969 => Grade::Isobutane,
            Product::Un1077 => Grade::Propylene,
        }
    }

    /// The guide an emergency crew opens for this product. All of these are flammable gases, class 2.1.
    /// From memory: to be compared with the book before anyone relies on it.
    pub const fn emergency_guide(self) -> EmergencyGuide {
        EmergencyGuide {
            un_number: self.un_number(),
            number: "115",
            title: "Gases, flammable",
            source: "Emergency Response Guidebook of the transport authorities, edition 2024, from memory",
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

/// Which page of the guidebook an emergency crew opens.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
pub struct EmergencyGuide {
    /// The product it is for, as "UN1075".
    pub un_number: &'static str,
    /// The guide's number.
    pub number: &'static str,
    /// What the guide is about.
    pub title: &'static str,
    /// Where the number is published.
    pub source: &'static str,
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
    pub text: String,
    /// Where it is written.
    pub source: String,
}

/// The residue paper's lines for a product. The shipper and local rules decide; this is a draft.
pub fn residue_paper(product: Product) -> ResiduePaper {
    let reminder = |text: &str, source: &str| Reminder { text: text.to_owned(), source: source.to_owned() };
    ResiduePaper {
        description: product.residue_description(),
        reminders: vec![
            reminder("Placards stay on until the car is cleaned and purged.", "49 CFR 172.514(b)"),
            reminder("The residue ships under the rules of the full load.", "49 CFR 173.29(a)"),
            reminder("An emergency telephone number stands on the paper.", "49 CFR 172.604, from memory"),
            reminder("The offeror keeps the paper two years.", "49 CFR 172.201(e)"),
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
            assert!(guide.source.contains("from memory"));
        }
    }

    #[test]
    fn every_reminder_of_the_residue_paper_says_where_it_is_written() {
        for product in Product::ALL {
            let paper = residue_paper(product);
            assert!(paper.description.contains(product.un_number()));
            assert!(paper.reminders.len() >= 3);
            assert!(paper.reminders.iter().all(|reminder| reminder.source.starts_with("49 CFR")));
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
