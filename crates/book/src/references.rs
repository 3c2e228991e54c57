//! The list of references: every source once, numbered in the order in which the book needs it.

use std::cell::RefCell;

use serde_json::{Value, json};
use working::{Evidence, Source};

use crate::letters::Letters;

/// Sources that were cited so far.
#[derive(Debug, Default)]
pub(crate) struct References {
    list: RefCell<Vec<Source>>,
}

impl References {
    /// A source for a reader: its number in the list and its evidence; what the user typed has no number.
    pub(crate) fn cite(&self, source: &Source) -> Value {
        if *source == Source::given() {
            return json!({ "number": 0, "evidence": short(source.evidence) });
        }
        let mut list = self.list.borrow_mut();
        let number = match list.iter().position(|known| known == source) {
            Some(place) => place + 1,
            None => {
                list.push(source.clone());
                list.len()
            }
        };
        json!({ "number": number, "evidence": short(source.evidence) })
    }

    /// The list.
    pub(crate) fn listed(&self, letters: &Letters) -> Value {
        self.list
            .borrow()
            .iter()
            .map(|source| {
                json!({
                    "text": letters.line(&source.text),
                    "evidence": source.evidence.label(),
                })
            })
            .collect()
    }
}

/// Label of evidence for a narrow column; the list has it in full.
pub(crate) const fn short(evidence: Evidence) -> &'static str {
    match evidence {
        Evidence::Given => "given",
        Evidence::Published => "published",
        Evidence::Derived => "derived",
        Evidence::Computed => "computed",
        Evidence::FromMemory => "from memory",
        Evidence::CommonPractice => "practice",
        Evidence::Judgement => "judgement",
    }
}
