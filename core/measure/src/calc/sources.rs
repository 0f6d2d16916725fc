//! What results rest on, as messages: publications as they are cited, and what else is said of a source in the
//! words of the catalogues.
//!
//! A citation is the same in every language; its constant stands here and nowhere else. Called by every formula
//! that makes a [`crate::units::Computed`].

use crate::{Arg, Joint, Message, message};

/// Volumes of liquefied gases: Table 24E.
pub const TABLE_24E: &str = "API MPMS 11.2.4 (2007) / GPA TP-27, Table 24E";
/// Densities of liquefied gases: Table 23E.
pub const TABLE_23E: &str = "API MPMS 11.2.4 (2007) / GPA TP-27, Table 23E";
/// Volumes of liquefied gases by kilograms and degrees Celsius.
pub const TABLES_54E_60E: &str = "API MPMS 11.2.4 (2007) / GPA TP-27, Tables 54E, 60E";
/// Densities of liquefied gases by kilograms and degrees Celsius.
pub const TABLES_53E_59E: &str = "API MPMS 11.2.4 (2007) / GPA TP-27, Tables 53E, 59E";
/// The filling densities of tanks.
pub const FILLING_DENSITIES: &str = "WAC 296-307-41037, Table U-4 (29 CFR 1910.110(b)(11))";
/// The slope through scattered readings.
pub const THEIL_SEN: &str = "P. K. Sen, J. Am. Stat. Assoc. 63 (1968) 1379–1389";
/// The equation of state of propane.
pub const PROPANE: &str = "Lemmon, McLinden & Wagner, J. Chem. Eng. Data 54 (2009) 3141–3180";
/// The equations of state of butane and isobutane.
pub const BUTANES: &str = "Bücker & Wagner, J. Phys. Chem. Ref. Data 35 (2006) 929–1019";
/// The equation of state of ethane.
pub const ETHANE: &str = "Bücker & Wagner, J. Phys. Chem. Ref. Data 35 (2006) 205–266";
/// The equation of state of propylene.
pub const PROPYLENE: &str = "Lemmon, Overhoff, McLinden & Wagner, CoolProp 8.0.0 (Lemmon-PROPYLENE-2013)";
/// How the work of a recovery follows from two densities.
pub const RECOVERY: &str = "t = (V/Sη) ln(ρ1/ρ2)";

/// A publication as it is cited.
pub fn cited(citation: &str) -> Message {
    Message::typed(citation)
}

/// What else a result rests on, in words of ours: the message `calc-source-…` of this id.
pub fn said(id: &'static str) -> Message {
    Message::new(id)
}

/// Several sources, one after the other.
pub fn several<const N: usize>(parts: [Message; N]) -> Message {
    message!("calc-source-several", parts = Arg::list(Joint::Semicolon, parts))
}
