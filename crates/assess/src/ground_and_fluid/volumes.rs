use fluid::{cut_volume, fluid_volume, largest_advance, returns_density};
use project::Project;
use quantity::{Length, Volume, unit};

use super::FluidRun;
use super::soil_shares::{usual_dose, usual_ratio};
use crate::assessment::{Pass, Reading};

/// Volumes and rates of every pass; empty where the ground or the pilot bore is not known.
pub(crate) fn passes(project: &Project, run: &FluidRun<'_>) -> Vec<Pass> {
    let Some(shares) = &run.shares else { return Vec::new() };
    let bore = &project.bore;
    let Some(pilot) = bore.pilot_diameter else { return Vec::new() };
    let length = project.line.length();
    let dose = project.fluid.bentonite_dose.unwrap_or_else(|| usual_dose(shares.main).0);
    let mut before = Length::ZERO;
    let mut list = Vec::new();
    let drillings = [&bore.pilot].into_iter().chain(&bore.reaming);
    let diameters = [pilot].into_iter().chain(bore.ream_diameters.iter().copied());
    for (i, (drilling, diameter)) in drillings.zip(diameters).enumerate() {
        let ratio = drilling.fluid_ratio.unwrap_or_else(|| usual_ratio(shares.main).0);
        let pass = || -> Result<Pass, fluid::FluidError> {
            let cut = cut_volume(length, before, diameter)?;
            let fresh = fluid_volume(cut, ratio)?;
            let out = Volume::from_si(cut.si() + fresh.si());
            let density = returns_density(shares.density, project.fluid.fresh_density, ratio)?;
            let advance = match drilling.flow {
                Some(flow) => Some(largest_advance(flow, 1.0, ratio, before, diameter)?),
                None => None,
            };
            let name = if i == 0 { "pilot".to_owned() } else { format!("ream {i}") };
            Ok(Pass {
                name,
                diameter: Reading::new(diameter.si(), unit::MM),
                fluid_ratio: ratio,
                cut: Reading::new(cut.si(), unit::M3),
                fluid: Reading::new(fresh.si(), unit::M3),
                returns: Reading::new(out.si(), unit::M3),
                returns_density: Reading::new(density.si(), unit::KG_PER_M3),
                largest_advance: advance.map(|v| Reading::new(v.si(), unit::M_PER_MIN)),
                bentonite: Reading::new(fresh.si() * dose.si(), unit::KG),
                tankers: (out / project.fluid.tanker_volume).ceil(),
            })
        };
        list.extend(pass());
        before = diameter;
    }
    list
}
