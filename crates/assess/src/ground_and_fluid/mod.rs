//! Fluid and ground along the bore: places, stages of drilling, pressures and what the ground bears.

use project::{LimitCriterion, Project};

pub(crate) use self::correlations::correlations;
pub(crate) use self::places::{BorePlace, Places};
pub(crate) use self::rheology::{Loss, in_words};
pub(crate) use self::run::{FluidRun, StagePlace, StageRun, limit_rules, utilisation};
pub(crate) use self::soil_shares::{SoilShares, main_kind, usual_dose, usual_ratio};
pub(crate) use self::stages::{SOCKET_LENGTH, StageSetup, Way};
pub(crate) use self::stretches::{stage_limits, stretches_in_words};
pub(crate) use self::volumes::passes;

mod correlations;
mod places;
mod rheology;
mod run;
mod soil_shares;
mod stages;
mod stretches;
mod volumes;

/// The criteria of which the least is what the ground bears, by the choice of the crossing.
pub(crate) fn governing_criteria(project: &Project) -> &'static [fluid::Criterion] {
    use fluid::Criterion as C;
    match project.factors.ground.criterion {
        LimitCriterion::LimitedCavity => &[
            C::CavityByCover,
            C::CavityByStrain,
            C::CavityByLayer,
            C::UndrainedByCover,
            C::UndrainedByStrain,
            C::UndrainedByLayer,
            C::RockJoints,
        ],
        LimitCriterion::CavityByCover => &[
            C::CavityByCover,
            C::CavityByLayer,
            C::UndrainedByCover,
            C::UndrainedByLayer,
            C::RockJoints,
        ],
        LimitCriterion::FirstYield => &[C::FirstYield, C::UndrainedYield, C::RockJoints],
        LimitCriterion::Tension => &[C::Tension, C::RockJoints],
    }
}
