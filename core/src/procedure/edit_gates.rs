//! The gates of an edition while it is made: what a step blocks, and which rules are switched off.
//!
//! The rest of the edition is in `edit`.

use toml::{Table, Value};

use super::edit::{EditedText, code_of, records, tables, word, words};
use crate::entry::vocabulary::Gate;

impl EditedText {
    /// Returns the gates that a step blocks: by a rule that names it, or by one that asks for what it records.
    pub fn blocks(&self, id: &str) -> Vec<Gate> {
        let rules = tables(&self.table, "gate");
        let of_step = |rule: &&&Table| self.concerns(rule, id);
        let gates: Vec<String> = rules.iter().filter(of_step).flat_map(|rule| words(rule, "gate")).collect();
        Gate::ALL.iter().copied().filter(|gate| gates.iter().any(|word| word == gate.word())).collect()
    }

    fn concerns(&self, rule: &Table, id: &str) -> bool {
        let step = tables(&self.table, "steps").into_iter().find(|step| word(step, "id") == id);
        let Some(step) = step else { return false };
        let mine = records(step, "records");
        word(rule, "step") == id || records(rule, "record").iter().any(|asked| mine.contains(asked))
    }

    /// Says whether a step blocks a gate. What law asks for stops blocking only with a reason.
    pub fn set_blocks(&mut self, id: &str, gate: Gate, blocks: bool, because: &str) {
        if self.blocks(id).contains(&gate) == blocks {
            return;
        }
        let at_gate = |rule: &Table| words(rule, "gate").iter().any(|word| word == gate.word());
        if blocks {
            let of_root: Vec<String> = tables(&self.root, "gate")
                .into_iter()
                .filter(|rule| at_gate(rule) && self.concerns(rule, id))
                .map(code_of)
                .collect();
            if of_root.is_empty() {
                let item = [("item", "step_open"), ("of", id), ("step", id), ("say", "gate-step-open")];
                let mut rule: Table = item
                    .into_iter()
                    .map(|(key, text)| (key.to_owned(), Value::String(text.to_owned())))
                    .collect();
                rule.insert("gate".to_owned(), Value::Array(vec![Value::String(gate.word().to_owned())]));
                self.whole_list("gate").push(Value::Table(rule));
            }
            of_root.iter().for_each(|code| self.restore_rules(code));
            return;
        }
        let concerned: Vec<String> = tables(&self.table, "gate")
            .into_iter()
            .filter(|rule| at_gate(rule) && self.concerns(rule, id))
            .map(code_of)
            .collect();
        for rule in self.list("gate").filter(|rule| concerned.contains(&code_of(rule))) {
            let rest: Vec<Value> = words(rule, "gate")
                .into_iter()
                .filter(|word| word != gate.word())
                .map(Value::String)
                .collect();
            rule.insert("gate".to_owned(), Value::Array(rest));
        }
        self.whole_list("gate")
            .retain(|rule| !rule.as_table().is_some_and(|rule| words(rule, "gate").is_empty()));
        for code in concerned {
            if word_in_root(&self.root, &code) {
                self.give_reason(&super::Lost::Rule(code), because);
            }
        }
    }

    /// Returns the codes of all rules in order, those that are switched off at the end.
    pub fn all_rules(&self) -> Vec<(String, bool)> {
        let mut codes: Vec<(String, bool)> = Vec::new();
        for (rules, on) in [(&self.table, true), (&self.root, false)] {
            for rule in tables(rules, "gate") {
                let code = code_of(rule);
                if !codes.iter().any(|(known, _)| *known == code) {
                    codes.push((code, on));
                }
            }
        }
        codes
    }

    /// Switches the rules of a code off.
    pub fn switch_rule_off(&mut self, code: &str, because: &str) {
        self.whole_list("gate").retain(|rule| rule.as_table().is_none_or(|rule| code_of(rule) != code));
        if word_in_root(&self.root, code) {
            self.give_reason(&super::Lost::Rule(code.to_owned()), because);
        }
    }

    /// Puts the rules of a code back as the built-in edition has them.
    pub fn restore_rules(&mut self, code: &str) {
        let root = self.root.clone();
        let of_root: Vec<Value> = tables(&root, "gate")
            .into_iter()
            .filter(|rule| code_of(rule) == code)
            .cloned()
            .map(Value::Table)
            .collect();
        if of_root.is_empty() {
            return;
        }
        // The order of rules decides which of several with one code speaks, so they go back to their place.
        let order: Vec<String> = tables(&root, "gate").into_iter().map(code_of).collect();
        let first = order.iter().position(|known| known == code).unwrap_or(0);
        let list = self.whole_list("gate");
        list.retain(|rule| rule.as_table().is_none_or(|rule| code_of(rule) != code));
        let earlier = |rule: &Value| {
            let code = rule.as_table().map(code_of).unwrap_or_default();
            order.iter().position(|known| *known == code).is_some_and(|at| at < first)
        };
        let place = list.iter().rposition(earlier).map_or(0, |at| at + 1);
        list.splice(place..place, of_root);
        self.give_reason(&super::Lost::Rule(code.to_owned()), "");
    }
}

/// Returns true if the built-in edition has rules of this code.
pub(super) fn word_in_root(root: &Table, code: &str) -> bool {
    tables(root, "gate").into_iter().any(|rule| code_of(rule) == code)
}
