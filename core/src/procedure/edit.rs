//! An organisation's edition while it is made: the text as a table, and one act for each thing that a person changes.
//!
//! Every act leaves a text. Whether it is whole is asked with [`EditedText::procedure`]; nothing is published before
//! that holds. The office's pages call this module, so that nobody writes TOML.

use std::collections::BTreeMap;

use toml::{Table, Value};

use super::edit_gates::word_in_root;
use super::edit_text::written;
use super::gate_rule::code;
use super::mistake::ProcedureError;
use super::step::{Procedure, Record, Stage};
use super::thresholds::Threshold;
use super::{BUILT_IN, built_in};
use crate::entry::value_reader::ReadError;
use crate::ids::Digest;

/// The sentences of a step that can be written anew.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sentence {
    /// Its title.
    Title,
    /// What to do.
    WhatToDo,
    /// Why.
    Why,
}

impl Sentence {
    /// Every sentence, in the order in which they are shown.
    pub const ALL: [Sentence; 3] = [Sentence::Title, Sentence::WhatToDo, Sentence::Why];

    /// Returns the key in a text.
    pub const fn word(self) -> &'static str {
        match self {
            Sentence::Title => "title",
            Sentence::WhatToDo => "what_to_do",
            Sentence::Why => "why",
        }
    }
}

/// What an added step is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Added {
    /// A check, answered with right or not right; "not right" holds the job.
    Check,
    /// Something that is acknowledged as done.
    Acknowledgement,
}

/// Own words by the tags of languages.
pub type OwnTexts = BTreeMap<String, String>;

/// The text of an edition while it is edited.
#[derive(Clone, Debug, PartialEq)]
pub struct EditedText {
    pub(super) table: Table,
    pub(super) root: Table,
}

/// Returns the table of the built-in text with this digest, if an edition can be started from it: one whose
/// sentences stand in the catalogues and whose gates stand in its text.
fn root_table(digest: &str) -> Option<Table> {
    let text = BUILT_IN.iter().find(|text| Digest::of(text.as_bytes()).to_string() == digest)?;
    let table: Table = toml::from_str(text).ok()?;
    table.contains_key("gate").then_some(table)
}

pub(super) fn word<'t>(table: &'t Table, key: &str) -> &'t str {
    table.get(key).and_then(Value::as_str).unwrap_or_default()
}

pub(super) fn tables<'t>(table: &'t Table, key: &str) -> Vec<&'t Table> {
    table.get(key).and_then(Value::as_array).into_iter().flatten().filter_map(Value::as_table).collect()
}

pub(super) fn words(table: &Table, key: &str) -> Vec<String> {
    let list = table.get(key).and_then(Value::as_array).into_iter().flatten();
    list.filter_map(Value::as_str).map(str::to_owned).collect()
}

/// Returns the records of a table without the answers that hold the job.
pub(super) fn records(table: &Table, key: &str) -> Vec<Value> {
    let plain = |record: &Value| {
        let mut record = record.clone();
        if let Some(record) = record.as_table_mut() {
            record.remove("holds");
        }
        record
    };
    match table.get(key) {
        Some(Value::Array(list)) => list.iter().map(plain).collect(),
        Some(one) => vec![plain(one)],
        None => Vec::new(),
    }
}

pub(super) fn code_of(rule: &Table) -> String {
    code(word(rule, "item"), word(rule, "of"))
}

fn text_of(texts: &OwnTexts) -> Option<Value> {
    let written = texts.iter().filter(|(_, text)| !text.trim().is_empty());
    let table: Table =
        written.map(|(tag, text)| (tag.clone(), Value::String(text.trim().to_owned()))).collect();
    (!table.is_empty()).then_some(Value::Table(table))
}

impl EditedText {
    /// Starts an edition from the text of a built-in one or of one that was published.
    ///
    /// # Errors
    /// [`ProcedureError::UnknownStart`] for a text from which none can be started, or a mistake in it.
    pub fn start(from: &str) -> Result<EditedText, ProcedureError> {
        let digest = Digest::of(from.as_bytes()).to_string();
        let Some(root) = root_table(&digest) else { return EditedText::read(from) };
        let mut table = root.clone();
        table.remove("in_catalogues");
        table.insert("starts_from".to_owned(), Value::String(digest));
        let mut edited = EditedText { table, root };
        let usual = Threshold::ReadingInterval.usual().map(i64::from);
        for step in edited.list("steps") {
            if step.get("repeat_minutes").and_then(Value::as_integer) == usual && usual.is_some() {
                step.remove("repeat_minutes");
                step.insert("repeats".to_owned(), Value::Boolean(true));
            }
        }
        Ok(edited)
    }

    /// Reads a text that was started before.
    ///
    /// # Errors
    /// [`ProcedureError`] if the text has not the form, or does not start from an edition that is known here.
    pub fn read(text: &str) -> Result<EditedText, ProcedureError> {
        let table: Table =
            toml::from_str(text).map_err(|e| ProcedureError::Unreadable(ReadError::syntax(e.message())))?;
        let root = root_table(word(&table, "starts_from")).ok_or(ProcedureError::UnknownStart)?;
        Ok(EditedText { table, root })
    }

    /// Returns the text.
    pub fn text(&self) -> String {
        written(&self.table)
    }

    /// Returns what the text says.
    ///
    /// # Errors
    /// [`ProcedureError`] while the text is not whole, such as while a reason is missing.
    pub fn procedure(&self) -> Result<Procedure, ProcedureError> {
        Procedure::read(&self.text())
    }

    /// Returns the built-in edition that the text starts from.
    pub fn root(&self) -> Option<&'static Procedure> {
        let digest = word(&self.table, "starts_from");
        built_in().iter().find(|procedure| procedure.digest.to_string() == digest)
    }

    pub(super) fn list(&mut self, key: &str) -> impl Iterator<Item = &mut Table> {
        let list = self.table.get_mut(key).and_then(Value::as_array_mut);
        list.into_iter().flatten().filter_map(Value::as_table_mut)
    }

    pub(super) fn whole_list(&mut self, key: &str) -> &mut Vec<Value> {
        let list = self.table.entry(key.to_owned()).or_insert_with(|| Value::Array(Vec::new()));
        if !list.is_array() {
            *list = Value::Array(Vec::new());
        }
        match list {
            Value::Array(list) => list,
            _ => unreachable!("it was made a list"),
        }
    }

    fn step(&mut self, id: &str) -> Option<&mut Table> {
        self.list("steps").find(|step| word(step, "id") == id)
    }

    /// Returns the name of the edition.
    pub fn edition(&self) -> &str {
        word(&self.table, "edition")
    }

    /// Names the edition.
    pub fn name_edition(&mut self, name: &str) {
        self.table.insert("edition".to_owned(), Value::String(name.trim().to_owned()));
    }

    /// Returns the own words of the title.
    pub fn title(&self) -> OwnTexts {
        own_texts(self.table.get("title"))
    }

    /// Writes the title. Where it is empty, that of the built-in edition is kept.
    pub fn entitle(&mut self, texts: &OwnTexts) {
        match text_of(texts) {
            Some(text) => self.table.insert("title".to_owned(), text),
            None => self.table.remove("title"),
        };
    }

    /// Returns the own words of a sentence of a step.
    pub fn own_words(&self, id: &str, sentence: Sentence) -> OwnTexts {
        let step = tables(&self.table, "steps").into_iter().find(|step| word(step, "id") == id);
        own_texts(step.and_then(|step| step.get(sentence.word())))
    }

    /// Writes a sentence of a step. Where it is empty, that of the built-in edition is kept.
    pub fn reword(&mut self, id: &str, sentence: Sentence, texts: &OwnTexts) {
        let Some(step) = self.step(id) else { return };
        match text_of(texts) {
            Some(text) => step.insert(sentence.word().to_owned(), text),
            None => step.remove(sentence.word()),
        };
    }

    /// Returns true if a step is the organisation's own and not of the built-in edition.
    pub fn is_added(&self, id: &str) -> bool {
        tables(&self.root, "steps").iter().all(|step| word(step, "id") != id)
    }

    /// Returns true if a step stands in the text.
    pub fn has_step(&self, id: &str) -> bool {
        tables(&self.table, "steps").iter().any(|step| word(step, "id") == id)
    }

    /// Returns the ids of all steps in order: those of the text, and those of the built-in edition that are switched
    /// off, where they would stand.
    pub fn all_steps(&self) -> Vec<String> {
        let mut ids: Vec<String> =
            tables(&self.table, "steps").iter().map(|step| word(step, "id").to_owned()).collect();
        for (at, step) in tables(&self.root, "steps").iter().enumerate() {
            if !ids.iter().any(|id| id == word(step, "id")) {
                let place = self.place_of(at, &ids);
                ids.insert(place, word(step, "id").to_owned());
            }
        }
        ids
    }

    /// Returns the place among `ids` for a step of the built-in edition: after the nearest step before it that is
    /// there.
    fn place_of(&self, at: usize, ids: &[String]) -> usize {
        let root = tables(&self.root, "steps");
        let before =
            root.iter().take(at).rev().find_map(|step| ids.iter().position(|id| id == word(step, "id")));
        before.map_or(0, |before| before + 1)
    }

    /// Returns the reason why something is left out, if one is given.
    pub fn reason(&self, what: &super::Lost) -> Option<&str> {
        let (key, name) = named(what);
        let found = tables(&self.table, "left_out").into_iter().find(|own| word(own, key) == name)?;
        Some(word(found, "because"))
    }

    pub(super) fn give_reason(&mut self, what: &super::Lost, because: &str) {
        let (key, name) = named(what);
        let list = self.whole_list("left_out");
        list.retain(|own| own.as_table().is_none_or(|own| word(own, key) != name));
        if !because.trim().is_empty() {
            let own = [(key, name), ("because", because.trim())];
            let own = own.map(|(key, text)| (key.to_owned(), Value::String(text.to_owned())));
            list.push(Value::Table(own.into_iter().collect()));
        }
        if list.is_empty() {
            self.table.remove("left_out");
        }
    }

    /// Switches a step off, with the rules of the gates that ask for what only it records.
    pub fn switch_off(&mut self, id: &str, because: &str) {
        let Some(step) = self.step(id).map(|step| step.clone()) else { return };
        let mut mine = records(&step, "records");
        self.whole_list("steps").retain(|step| step.as_table().is_none_or(|step| word(step, "id") != id));
        let others = tables(&self.table, "steps");
        mine.retain(|record| others.iter().all(|other| !records(other, "records").contains(record)));
        let asks = |rule: &Table| {
            let asked = records(rule, "record");
            word(rule, "step") == id || (!asked.is_empty() && asked.iter().all(|asked| mine.contains(asked)))
        };
        let gone: Vec<(String, bool)> = tables(&self.table, "gate")
            .into_iter()
            .filter(|rule| asks(rule))
            .map(|rule| (code_of(rule), rule.contains_key("law")))
            .collect();
        self.whole_list("gate").retain(|rule| rule.as_table().is_none_or(|rule| !asks(rule)));
        for (rule, law) in gone {
            if law || word_in_root(&self.root, &rule) {
                self.give_reason(&super::Lost::Rule(rule), because);
            }
        }
        self.whole_list("order").retain(|rule| {
            let names = |rule: &Table| ["from", "to", "step"].iter().any(|key| word(rule, key) == id);
            !rule.as_table().is_some_and(names)
        });
        if !self.is_added(id) {
            self.give_reason(&super::Lost::Step(id.to_owned()), because);
        }
        self.put_in_order();
    }

    /// Switches a step of the built-in edition on again, as it stands there, with the rules that ask for it.
    pub fn switch_on(&mut self, id: &str) {
        if self.has_step(id) {
            return;
        }
        let root = EditedText::start_of(&self.root);
        let Some(step) = tables(&root, "steps").into_iter().find(|step| word(step, "id") == id).cloned()
        else {
            return;
        };
        let ids: Vec<String> =
            tables(&self.table, "steps").iter().map(|step| word(step, "id").to_owned()).collect();
        let at = tables(&root, "steps").iter().position(|step| word(step, "id") == id).unwrap_or(0);
        let place = self.place_of(at, &ids);
        let mine = records(&step, "records");
        self.whole_list("steps").insert(place, Value::Table(step));
        self.give_reason(&super::Lost::Step(id.to_owned()), "");
        for rule in tables(&root, "gate") {
            let asked = records(rule, "record");
            let of_step = word(rule, "step") == id
                || (!asked.is_empty() && asked.iter().all(|asked| mine.contains(asked)));
            if of_step {
                self.restore_rules(&code_of(rule));
            }
        }
        let orders: Vec<Value> = tables(&root, "order").into_iter().cloned().map(Value::Table).collect();
        for rule in orders {
            let stands =
                |key: &str| rule.get(key).and_then(Value::as_str).is_none_or(|named| self.has_step(named));
            if ["from", "to", "step"].into_iter().all(stands) && !self.whole_list("order").contains(&rule) {
                self.whole_list("order").push(rule);
            }
        }
        self.put_in_order();
    }

    fn start_of(root: &Table) -> Table {
        let edited = BUILT_IN.iter().find(|text| toml::from_str::<Table>(text).ok().as_ref() == Some(root));
        edited
            .and_then(|text| EditedText::start(text).ok())
            .map_or_else(|| root.clone(), |edited| edited.table)
    }

    /// Puts `after` right everywhere: a step comes after those of its predecessors that stand before it.
    fn put_in_order(&mut self) {
        let mut before: Vec<String> = Vec::new();
        let root: BTreeMap<String, Vec<String>> = tables(&self.root, "steps")
            .into_iter()
            .map(|step| (word(step, "id").to_owned(), words(step, "after")))
            .collect();
        for step in self.list("steps") {
            let id = word(step, "id").to_owned();
            let wanted = root.get(&id).cloned().unwrap_or_else(|| words(step, "after"));
            let after: Vec<Value> =
                wanted.into_iter().filter(|other| before.contains(other)).map(Value::String).collect();
            if after.is_empty() {
                step.remove("after");
            } else {
                step.insert("after".to_owned(), Value::Array(after));
            }
            before.push(id);
        }
    }

    /// Moves a step one place up or down within its stage. Returns false at the end of the stage.
    pub fn move_step(&mut self, id: &str, up: bool) -> bool {
        let steps = self.whole_list("steps");
        let named = |step: &Value, key: &str| step.as_table().map(|step| word(step, key).to_owned());
        let Some(at) = steps.iter().position(|step| named(step, "id").as_deref() == Some(id)) else {
            return false;
        };
        let other = if up { at.checked_sub(1) } else { Some(at + 1).filter(|next| *next < steps.len()) };
        let Some(other) = other.filter(|other| named(&steps[*other], "stage") == named(&steps[at], "stage"))
        else {
            return false;
        };
        steps.swap(at, other);
        self.put_in_order();
        true
    }

    /// Returns the interval of a step that repeats: `Some(None)` if it is that of the thresholds.
    pub fn interval(&self, id: &str) -> Option<Option<u32>> {
        let step = tables(&self.table, "steps").into_iter().find(|step| word(step, "id") == id)?;
        let own = step.get("repeat_minutes").and_then(Value::as_integer);
        match own {
            Some(minutes) => Some(u32::try_from(minutes).ok()),
            None => step.get("repeats").and_then(Value::as_bool).filter(|repeats| *repeats).map(|_| None),
        }
    }

    /// Sets the interval of a step that repeats; `None` for that of the thresholds.
    pub fn set_interval(&mut self, id: &str, minutes: Option<u32>) {
        let Some(step) = self.step(id) else { return };
        step.remove("repeats");
        step.remove("repeat_minutes");
        match minutes {
            Some(minutes) => step.insert("repeat_minutes".to_owned(), Value::Integer(minutes.into())),
            None => step.insert("repeats".to_owned(), Value::Boolean(true)),
        };
    }

    /// Returns a threshold, if the text sets it.
    pub fn threshold(&self, threshold: Threshold) -> Option<u32> {
        let set = self.table.get("thresholds").and_then(Value::as_table)?;
        u32::try_from(set.get(threshold.word())?.as_integer()?).ok()
    }

    /// Sets a threshold, or leaves it as it usually is.
    pub fn set_threshold(&mut self, threshold: Threshold, number: Option<u32>) {
        let set = self.table.entry("thresholds".to_owned()).or_insert_with(|| Value::Table(Table::new()));
        let Some(set) = set.as_table_mut() else { return };
        match number {
            Some(number) => set.insert(threshold.word().to_owned(), Value::Integer(number.into())),
            None => set.remove(threshold.word()),
        };
        if set.is_empty() {
            self.table.remove("thresholds");
        }
    }

    /// Adds a step at the end of a stage, before whatever clears or releases the stay there. Returns its id.
    pub fn add_step(&mut self, stage: Stage, kind: Added, sentences: &[(Sentence, OwnTexts)]) -> String {
        let ids = self.all_steps();
        let number = (1..).find(|n| !ids.contains(&format!("own_{n}"))).unwrap_or(0_u32);
        let id = format!("own_{number}");
        let mut step = Table::new();
        step.insert("id".to_owned(), Value::String(id.clone()));
        step.insert("stage".to_owned(), Value::String(stage.word().to_owned()));
        for (sentence, texts) in sentences {
            if let Some(text) = text_of(texts) {
                step.insert(sentence.word().to_owned(), text);
            }
        }
        if kind == Added::Check {
            let title = sentences.iter().find(|(sentence, _)| *sentence == Sentence::Title);
            let title = title.and_then(|(_, texts)| texts.values().find(|text| !text.trim().is_empty()));
            let what = title.map_or(id.as_str(), |title| title.trim()).to_owned();
            let mut record = Table::new();
            record.insert("statement".to_owned(), Value::String("check".to_owned()));
            record.insert("what".to_owned(), Value::String(what));
            record.insert("holds".to_owned(), Value::Array(vec![Value::Boolean(false)]));
            step.insert("records".to_owned(), Value::Array(vec![Value::Table(record)]));
        }
        let signs = [Record::FitToUnload {}, Record::Released {}]
            .map(|record| Value::try_from(record).unwrap_or(Value::Boolean(false)));
        let stages: Vec<&str> = Stage::ALL.iter().map(|stage| stage.word()).collect();
        let rank = |word: &str| stages.iter().position(|known| *known == word);
        let list = self.whole_list("steps");
        let later = |step: &Value| {
            let Some(step) = step.as_table() else { return false };
            rank(word(step, "stage")) > rank(stage.word())
                || (word(step, "stage") == stage.word()
                    && records(step, "records").iter().any(|record| signs.contains(record)))
        };
        let place = list.iter().position(later).unwrap_or(list.len());
        list.insert(place, Value::Table(step));
        id
    }

    /// Removes a step that was added.
    pub fn remove_added(&mut self, id: &str) {
        if self.is_added(id) {
            self.switch_off(id, "");
        }
    }
}

fn named(what: &super::Lost) -> (&'static str, &str) {
    match what {
        super::Lost::Step(name) => ("step", name),
        super::Lost::Rule(name) => ("gate", name),
    }
}

fn own_texts(value: Option<&Value>) -> OwnTexts {
    match value {
        Some(Value::Table(texts)) => {
            texts.iter().filter_map(|(tag, text)| Some((tag.clone(), text.as_str()?.to_owned()))).collect()
        }
        Some(Value::String(text)) => [("en-US".to_owned(), text.clone())].into(),
        _ => OwnTexts::new(),
    }
}
