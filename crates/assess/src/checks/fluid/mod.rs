//! The pressure of the drilling fluid, its density and the pump.

use project::Project;
use working::{Evidence, Source};

use crate::context::Context;
use crate::item::Item;

mod limit_lines;
mod limit_pressure;
mod pressure_lines;
mod pump;
mod restart;
mod returns;
mod stress_lines;

pub(super) use self::pump::pump;
pub(crate) use self::pump::{NOZZLE, NOZZLE_SOURCE};
pub(super) use self::restart::restart;
pub(super) use self::returns::returns;

const STATICS: Source = Source::new("hydrostatics", Evidence::Derived);

/// Ids of the checks of the limit pressure, one for each stage.
pub(super) fn ids(project: &Project) -> Vec<String> {
    let reams = (1..=project.bore.ream_diameters.len()).map(|i| format!("ream-{i}"));
    let stages = ["pilot".to_owned()].into_iter().chain(reams).chain(["pull".to_owned()]);
    stages.map(|stage| id(&stage)).collect()
}

fn id(stage: &str) -> String {
    format!("fluid.limit-pressure.{stage}")
}

/// One check of the limit pressure for each stage.
pub(super) fn limit_pressures(c: &Context<'_>) -> Vec<Item> {
    let run = c.fluid();
    run.stages
        .iter()
        .map(|(id, name, stage, made)| limit_pressure::check(c, id, name, *stage, made))
        .collect()
}
