//! The organisation's own procedure for a site, as data: what a person at the office changes in the built-in one. It is
//! published by the statement that the office's page signs, from a text that is made as the page makes it.

use std::collections::BTreeMap;

use farsiding_core::Message;
use farsiding_core::entry::Statement;
use farsiding_core::entry::site_facts::PublishedProcedure;
use farsiding_core::entry::vocabulary::Gate;
use farsiding_core::ids::SiteId;
use farsiding_core::procedure::{Added, BUILT_IN, EditedText, OwnTexts, Sentence, Stage, Threshold};
use farsiding_core::view::fit_to_publish;
use serde::Deserialize;

use crate::DemoError;

/// What is changed, and for which site.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OwnProcedure {
    /// The name of the site at which new stays begin under it.
    pub site: String,
    /// The edition's name.
    pub edition: String,
    /// What was changed, and why.
    pub note: String,
    #[serde(default)]
    thresholds: BTreeMap<String, u32>,
    #[serde(default)]
    reword: Vec<Reworded>,
    #[serde(default)]
    add: Vec<AddedStep>,
}

/// The sentences of a step in some languages.
#[derive(Debug, Deserialize)]
struct Sentences {
    #[serde(default)]
    title: OwnTexts,
    #[serde(default)]
    what_to_do: OwnTexts,
    #[serde(default)]
    why: OwnTexts,
}

impl Sentences {
    fn each(&self) -> impl Iterator<Item = (Sentence, &OwnTexts)> {
        let of = |sentence| match sentence {
            Sentence::Title => &self.title,
            Sentence::WhatToDo => &self.what_to_do,
            Sentence::Why => &self.why,
        };
        Sentence::ALL.into_iter().map(move |sentence| (sentence, of(sentence)))
    }
}

#[derive(Debug, Deserialize)]
struct Reworded {
    step: String,
    #[serde(flatten)]
    says: Sentences,
}

/// A check that the organisation adds.
#[derive(Debug, Deserialize)]
struct AddedStep {
    stage: String,
    #[serde(default)]
    blocks: Vec<String>,
    #[serde(flatten)]
    says: Sentences,
}

impl OwnProcedure {
    /// Returns the text of the edition, made from the newest built-in one as the office's pages make it.
    ///
    /// # Errors
    /// [`DemoError::Scenario`] when a word is not known, or the text is not whole.
    pub fn text(&self) -> Result<String, DemoError> {
        let refuse = |why: String| DemoError::Scenario { place: self.edition.clone(), why };
        let newest = BUILT_IN.last().copied().unwrap_or_default();
        let mut edited = EditedText::start(newest).map_err(|error| refuse(error.to_string()))?;
        edited.name_edition(&self.edition);
        for (word, number) in &self.thresholds {
            let threshold = Threshold::read(word).ok_or_else(|| refuse(format!("{word} is no threshold")))?;
            edited.set_threshold(threshold, Some(*number));
        }
        for own in &self.reword {
            if !edited.has_step(&own.step) {
                return Err(refuse(format!("there is no step {}", own.step)));
            }
            for (sentence, texts) in own.says.each().filter(|(_, texts)| !texts.is_empty()) {
                edited.reword(&own.step, sentence, texts);
            }
        }
        for own in &self.add {
            let stage = Stage::ALL.into_iter().find(|stage| stage.word() == own.stage);
            let stage = stage.ok_or_else(|| refuse(format!("{} is no stage", own.stage)))?;
            let says: Vec<(Sentence, OwnTexts)> =
                own.says.each().map(|(sentence, texts)| (sentence, texts.clone())).collect();
            let id = edited.add_step(stage, Added::Check, &says);
            for gate in &own.blocks {
                let gate = Gate::read(gate).ok_or_else(|| refuse(format!("{gate} is no gate")))?;
                edited.set_blocks(&id, gate, true, "");
            }
        }
        edited.procedure().map_err(|error| refuse(error.to_string()))?;
        Ok(edited.text())
    }

    /// Returns the statement that publishes it for a site.
    ///
    /// # Errors
    /// Why its text cannot be published.
    pub fn published(&self, site: SiteId) -> Result<Statement, Message> {
        let text = self.text().map_err(|error| Message::typed(error.to_string()))?;
        let procedure = fit_to_publish(&text, None)?;
        Ok(Statement::ProcedurePublished(PublishedProcedure {
            procedure: procedure.digest,
            sites: vec![site],
            from: procedure.starts_from,
            note: self.note.clone(),
            text,
        }))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use farsiding_core::procedure::Procedure;

    fn told() -> String {
        let file = concat!(env!("CARGO_MANIFEST_DIR"), "/scenario/procedures/thimble_siding.toml");
        std::fs::read_to_string(file).unwrap()
    }

    fn read(text: &str) -> Result<String, DemoError> {
        toml::from_str::<OwnProcedure>(text).unwrap().text()
    }

    #[test]
    fn the_text_says_what_the_data_says_and_that_it_is_invented() {
        let text = read(&told()).unwrap();
        let own = Procedure::read(&text).unwrap();
        assert_eq!(own.thresholds.get(Threshold::CheckIn), Some(30));
        assert_eq!(own.thresholds.get(Threshold::Hold), Some(15));
        assert!(own.edition.contains("invented"));
        assert!(own.steps.iter().any(|step| step.id == "own_1"));
        assert!(own.gates.iter().any(|rule| rule.of == "own_1"));
        assert!(text.contains("gap in the fence (invented)"));
    }

    #[test]
    fn a_word_that_is_not_known_is_refused_by_name() {
        for (right, wrong) in [
            ("check_in_minutes = 30", "check_in_hours = 30"),
            ("check_in_minutes = 30", "check_in_minutes = 3"),
            ("step = \"escape_way\"", "step = \"escape\""),
            ("stage = \"gauge\"", "stage = \"gauging\""),
            ("blocks = [\"unload\"]", "blocks = [\"unloading\"]"),
        ] {
            assert!(told().contains(right), "{right}");
            assert!(read(&told().replace(right, wrong)).is_err(), "{wrong}");
        }
    }
}
