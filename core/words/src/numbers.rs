//! Numbers as a language writes them.

use icu_decimal::DecimalFormatter;
use icu_decimal::input::Decimal;
use icu_locale_core::Locale;

use crate::Language;

/// Returns the formatter of a language; `None` only if the library has no data at all.
pub(crate) fn formatter(language: Language) -> Option<DecimalFormatter> {
    let locale: Locale = language.as_str().parse().ok()?;
    DecimalFormatter::try_new(locale.into(), Default::default()).ok()
}

/// Writes a decimal with a full stop ("-12500.50") as the language does; a text that is no such number stays as it is.
pub(crate) fn written(formatter: Option<&DecimalFormatter>, number: &str) -> String {
    match (formatter, number.parse::<Decimal>()) {
        (Some(formatter), Ok(decimal)) => formatter.format_to_string(&decimal),
        _ => number.to_owned(),
    }
}

/// Returns true if the language writes the decimal mark as a full stop, as typed text mostly does.
pub(crate) fn has_full_stop(formatter: Option<&DecimalFormatter>) -> bool {
    written(formatter, "0.5").contains('.')
}
