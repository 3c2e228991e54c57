//! Values that nobody gave and that no key of the crossing file holds: the reader gets them in the same list.

use project::Project;
use quantity::{Unit, show, unit};
use working::{Assumption, Evidence, Source};

use crate::context::ROD_STEEL;

/// Every assumption of an assessment: those of the file, then those of the calculation.
pub(crate) fn all(project: &Project) -> Vec<Assumption> {
    let mut list = project.assumptions.clone();
    let data = project.string.pipe.data();
    let mut add = |path: &str, meaning: &str, si: f64, unit: Unit, source: Source| {
        if source.evidence != Evidence::Given {
            list.push(Assumption {
                path: path.to_owned(),
                meaning: meaning.to_owned(),
                value: show(si, unit),
                source,
            });
        }
    };
    let modulus = &data.modulus;
    add(
        "pipe: modulus",
        "modulus of elasticity of the iron",
        modulus.value.si(),
        unit::GPA,
        modulus.source.clone(),
    );
    let strength = &data.proof_strength;
    add(
        "pipe: proof strength",
        "0.2 % proof strength of the iron",
        strength.value.si(),
        unit::MPA,
        strength.source.clone(),
    );
    if data.stated_mass.is_none() {
        let iron = &data.iron_density;
        add(
            "pipe: iron",
            "density of the iron",
            iron.value.si(),
            unit::KG_PER_M3,
            iron.source.clone(),
        );
        let lining = &data.lining;
        if lining.value.thickness.si() > 0.0 {
            add(
                "pipe: lining",
                "density of the lining",
                lining.value.density.si(),
                unit::KG_PER_M3,
                Source::new("cement mortar, 2200 to 2400 kg/m3", Evidence::FromMemory),
            );
        }
    }
    add(
        "pipe: Poisson's ratio",
        "Poisson's ratio of the iron, for buckling",
        service::POISSON,
        unit::ONE,
        Source::new("0.25 in EN handbooks, 0.28 in AWWA guides", Evidence::FromMemory),
    );
    if project.bore.rods.mass_per_length.is_some() {
        add(
            "rods: steel",
            "density of the rods' steel, which the fluid buoys up",
            ROD_STEEL.si(),
            unit::KG_PER_M3,
            Source::new("steel", Evidence::CommonPractice),
        );
    }
    add(
        "rods: friction",
        "friction and fluid stress of the rods in the bore",
        project.factors.friction_bore,
        unit::ONE,
        Source::new("the same as those of the string", Evidence::Judgement),
    );
    add(
        "water",
        "density of the water in pipe and ground",
        pipe::WATER_DENSITY.si(),
        unit::KG_PER_M3,
        Source::new("fresh water, rounded", Evidence::CommonPractice),
    );
    list
}
