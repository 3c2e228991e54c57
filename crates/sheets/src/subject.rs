//! The one thing that all documents of a design are made from.

use assess::{Assessment, Check, Explanation};
use project::Design;
use quantity::System;

use crate::issue::Issue;

/// A design with all that was computed on it, once for all documents.
#[derive(Debug, Clone)]
pub struct Subject<'a> {
    /// The design.
    pub design: &'a Design,
    /// Name of its file, without folders.
    pub file: String,
    /// What was found.
    pub assessment: Assessment,
    /// Every check with its working, in the order of the work.
    pub explanations: Vec<Explanation>,
    /// Who issues the documents, and when.
    pub issue: Issue,
    /// Units in which values are shown.
    pub system: System,
}

impl<'a> Subject<'a> {
    /// Assesses a design and keeps what documents need.
    ///
    /// Texts of the assessment are made for the reader of `system`; texts made later need [`quantity::for_reader`] again,
    /// as [`Subject::for_reader`] does it.
    #[must_use]
    pub fn new(design: &'a Design, file: &str, issue: Issue, system: System) -> Self {
        quantity::for_reader(system, || {
            let mut assessment = assess::assess_design(design);
            assessment.file = Some(file.to_owned());
            Self {
                design,
                file: file.to_owned(),
                assessment,
                explanations: assess::explain_all(design),
                issue,
                system,
            }
        })
    }

    /// Does some work with texts in the units of the reader.
    pub fn for_reader<R>(&self, work: impl FnOnce(&Self) -> R) -> R {
        quantity::for_reader(self.system, || work(self))
    }

    /// The check that governs, where one does.
    #[must_use]
    pub fn governing(&self) -> Option<&Check> {
        self.assessment.check(self.assessment.verdict.governing.as_deref()?)
    }
}
