//! Pulling a string into a bore: published methods, rules of thumb and the chain on a bend.

use pull::published::PublishedError;

use crate::definition::{Input, Worksheet};
use crate::run::Failure;

mod barrel;
mod calibration;
mod capstan;
mod f1962;
mod quick;
mod stage;
mod stiff;
mod uplift;

/// Worksheets of this topic.
pub(crate) static SHEETS: &[&Worksheet] = &[
    &capstan::CHAIN_CAPSTAN,
    &capstan::JOINT_SIDE_FORCE,
    &f1962::PULL_F1962,
    &f1962::HYDROKINETIC_SHEET,
    &f1962::PULL_MINI,
    &uplift::MINI_UPLIFT,
    &stiff::PULL_STRAIGHT,
    &stiff::PULL_ARC_STIFF,
    &stage::PULL_STAGE,
    &stage::BEND_REACTION_SHEET,
    &quick::PULL_QUICK,
    &quick::PULL_WEIGHT_SHARE,
    &barrel::STRETCH_SHEET,
    &barrel::BARREL_BENDING,
    &calibration::CALIBRATION_SHEET,
];

/// The refusal of a calculation, at the input whose key is the name of the quantity at fault.
pub(crate) fn refused(sheet: &'static Worksheet, error: &PublishedError) -> Failure {
    let names = |input: &&Input| Some(input.key.replace('_', " ").as_str()) == error.quantity();
    let key = sheet.inputs.iter().find(names).map_or("", |input| input.key);
    Failure::at(key, error)
}
