//! One check as it leaves its function: the check, and its working when somebody asked for it.

use quantity::Length;
use working::{Source, Working};

use crate::assessment::{Check, Explanation, JointRow, Reading, Sense, Stage, Status};

/// A limit that is reached exactly is met; this much is rounding.
const MET: f64 = 1.0 + 1e-9;

/// A check with its working.
pub(crate) struct Item {
    pub check: Check,
    pub working: Option<Working>,
    pub joints: Vec<JointRow>,
    pub notes: Vec<String>,
}

/// What a check is about.
pub(crate) struct About {
    pub id: String,
    pub title: String,
    pub stage: Stage,
    pub basis: Source,
    rule: bool,
}

impl About {
    pub fn new(
        id: impl Into<String>,
        title: impl Into<String>,
        stage: Stage,
        basis: Source,
    ) -> Self {
        Self { id: id.into(), title: title.into(), stage, basis, rule: false }
    }

    /// A rule that is kept or not: nearness to the limit asks for no attention and never governs.
    pub fn rule(mut self) -> Self {
        self.rule = true;
        self
    }

    /// A rule in one case only.
    pub fn rule_when(mut self, case: bool) -> Self {
        self.rule |= case;
        self
    }

    /// Met while the demand does not exceed the limit.
    pub fn at_most(
        self,
        demand: Reading,
        limit: Reading,
        attention: f64,
        because: impl Into<String>,
    ) -> Item {
        let utilisation = if demand.value <= 0.0 {
            Some(0.0)
        } else {
            Some(demand.value / limit.value).filter(|u| u.is_finite() && limit.value > 0.0)
        };
        self.judged(demand, limit, Sense::AtMost, utilisation, attention, because.into())
    }

    /// Met while the demand reaches the limit.
    pub fn at_least(
        self,
        demand: Reading,
        limit: Reading,
        attention: f64,
        because: impl Into<String>,
    ) -> Item {
        let utilisation = if limit.value <= 0.0 && demand.value >= limit.value {
            Some(0.0)
        } else {
            Some(limit.value / demand.value).filter(|u| u.is_finite() && demand.value > 0.0)
        };
        self.judged(demand, limit, Sense::AtLeast, utilisation, attention, because.into())
    }

    /// `utilisation` is `None` where no finite ratio exists, which only happens when the limit is missed altogether.
    fn judged(
        self,
        demand: Reading,
        limit: Reading,
        sense: Sense,
        utilisation: Option<f64>,
        attention: f64,
        because: String,
    ) -> Item {
        if !(demand.value.is_finite() && limit.value.is_finite()) {
            return self.not_assessed(&[], format!("no finite value could be computed; {because}"));
        }
        let status = match utilisation {
            Some(u) if u < attention || (self.rule && u <= MET) => Status::Pass,
            Some(u) if u <= MET => Status::Attention,
            _ => Status::Fail,
        };
        Item {
            check: Check {
                id: self.id,
                title: self.title,
                demand: Some(demand),
                limit: Some(limit),
                sense,
                utilisation,
                status,
                rule: self.rule,
                at: None,
                stage: self.stage,
                basis: self.basis,
                because,
                missing: Vec::new(),
            },
            working: None,
            joints: Vec::new(),
            notes: Vec::new(),
        }
    }

    /// Not met whatever the limit is, as no finite demand exists.
    pub fn without_bound(self, limit: Option<Reading>, because: impl Into<String>) -> Item {
        let mut item = self.not_assessed(&[], because);
        item.check.status = Status::Fail;
        item.check.limit = limit;
        item
    }

    /// A check that could not be made.
    pub fn not_assessed(self, missing: &[&str], because: impl Into<String>) -> Item {
        Item {
            check: Check {
                id: self.id,
                title: self.title,
                demand: None,
                limit: None,
                sense: Sense::AtMost,
                utilisation: None,
                status: Status::NotAssessed,
                rule: self.rule,
                at: None,
                stage: self.stage,
                basis: self.basis,
                because: because.into(),
                missing: missing.iter().map(|m| (*m).to_owned()).collect(),
            },
            working: None,
            joints: Vec::new(),
            notes: Vec::new(),
        }
    }
}

impl Item {
    /// The check with its working.
    pub fn explained(self) -> Explanation {
        Explanation {
            check: self.check,
            working: self.working.unwrap_or_default(),
            joints: self.joints,
            notes: self.notes,
        }
    }

    /// Where along the bore the check is tightest.
    pub fn at(mut self, md: Length) -> Self {
        self.check.at = Some(md.si());
        self
    }

    /// More keys that are missing.
    pub fn missing(mut self, keys: &[String]) -> Self {
        self.check.missing.extend_from_slice(keys);
        self
    }

    /// The demand that acts although the limit is not known.
    pub fn acting(mut self, demand: Reading) -> Self {
        self.check.demand = Some(demand);
        self
    }

    /// Advice: missing it asks for attention and never fails.
    pub fn advice(mut self) -> Self {
        if self.check.status == Status::Fail {
            self.check.status = Status::Attention;
        }
        self
    }

    /// Asks for attention although the limit is met.
    pub fn attend(mut self, needed: bool) -> Self {
        if needed && self.check.status == Status::Pass {
            self.check.status = Status::Attention;
        }
        self
    }

    /// Fails although the ratio does not say so.
    pub fn fail_when(mut self, missed: bool) -> Self {
        if missed && self.check.status != Status::NotAssessed {
            self.check.status = Status::Fail;
        }
        self
    }

    /// With its working.
    pub fn worked(mut self, working: Option<Working>) -> Self {
        self.working = working;
        self
    }

    /// With the state of every joint.
    pub fn joints(mut self, joints: Vec<JointRow>) -> Self {
        self.joints = joints;
        self
    }

    /// With a note beside the working.
    pub fn note(mut self, note: impl Into<String>) -> Self {
        self.notes.push(note.into());
        self
    }
}
