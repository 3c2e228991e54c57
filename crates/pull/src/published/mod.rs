//! Published and remembered methods for the force of pulling a string into a bore.
//!
//! One function a method. Each method has a [`Method`] record that says what it is called, where it comes from, how
//! well that is founded and for what it was made, so that a band of results can name every line in it.
//! Everything here takes plain quantities; how a bore line becomes lengths and angles is the caller's affair.
//!
//! Direction: the string enters at the pipe side and is pulled to the rig side. Inclinations are positive where the
//! string climbs in the direction of the pull. Net weight is positive where the string sinks, except in the
//! F1962 form, whose source counts upward force as positive.

pub use self::arc_stiff::{Arc, ArcForces, BendPlane, arc_stiff};
pub use self::barrel::barrel_bending_stress;
pub use self::bend_reaction::{BEND_REACTION, BendReaction, bend_reaction};
pub use self::calibration::{CALIBRATION, Calibration, NINETY_PERCENT, calibration};
pub use self::capstan::{CAPSTAN, CapstanRatios, chain_capstan, joint_side_force};
pub use self::error::PublishedError;
pub use self::f1962::{
    F1962, F1962_METHOD, F1962Forces, F1962Place, HYDROKINETIC, f1962, f1962_transition,
    hydrokinetic_force,
};
pub use self::mini_rule::{MINI_RULE, MiniRule, MiniRuleForce, mini_rule, mini_rule_uplift};
pub use self::quick::{Ground, QUICK_RULE, WEIGHT_SHARE, WeightShare, quick_rule, weight_share};
pub use self::soft_string::{SOFT_STRING, SoftString, SoftStringElement, soft_string};
pub use self::stage::{STAGE_FORM, Stage, StageBend, StageForces, StageForm, stage_form};
pub use self::stiff::{Contact, STIFF_PIPE, StiffPipe, StraightForces, straight};
pub use self::stiff_path::{PathPart, stiff_path};
pub use self::tension_beam::tension_beam_midpoint;

mod arc_stiff;
mod barrel;
mod bend_reaction;
mod calibration;
pub(crate) mod capstan;
mod error;
mod f1962;
#[cfg(test)]
mod fixtures;
mod mini_rule;
mod quick;
pub(crate) mod range;
mod soft_string;
mod stage;
pub(crate) mod stiff;
mod stiff_path;
mod tension_beam;

use working::{Evidence, Source};

/// What a method is, where it comes from and for what it was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Method {
    /// Name under which a result of the method is listed.
    pub name: &'static str,
    /// The document with the place in it, or a sentence on the derivation.
    pub document: &'static str,
    /// How well the method is founded here.
    pub evidence: Evidence,
    /// For what the method was made, and where it is known to err.
    pub validity: &'static str,
}

impl Method {
    /// Document and evidence as a source of results.
    #[must_use]
    pub const fn source(&self) -> Source {
        Source::new(self.document, self.evidence)
    }
}
