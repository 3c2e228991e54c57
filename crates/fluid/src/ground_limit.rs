use ground::{Soil, SoilGroup, Stress};
use quantity::{Length, Pressure};

use crate::{
    Cavity, FluidError, UndrainedCavity, rock_fracture_limit, rock_joint_limit, tensile_limit,
    undrained_yield_anisotropic,
};

/// A way to say what pressure the ground bears.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Criterion {
    /// Drained cavity, plastic zone up to a share of the cover.
    CavityByCover,
    /// Drained cavity, wall up to a strain.
    CavityByStrain,
    /// Drained cavity, plastic zone up to a weaker layer.
    CavityByLayer,
    /// Undrained cavity, plastic zone up to a share of the cover.
    UndrainedByCover,
    /// Undrained cavity, wall up to a strain.
    UndrainedByStrain,
    /// Undrained cavity, plastic zone up to a weaker layer.
    UndrainedByLayer,
    /// First yield of the wall, drained.
    FirstYield,
    /// First yield of the wall, undrained, with unequal stresses.
    UndrainedYield,
    /// Tension at the wall of elastic ground.
    Tension,
    /// Joints of rock open.
    RockJoints,
    /// Sound rock cracks.
    RockFracture,
    /// Weight of everything above.
    Overburden,
}

impl Criterion {
    /// All criteria, in the order of lists.
    pub const ALL: [Criterion; 12] = [
        Criterion::CavityByCover,
        Criterion::CavityByStrain,
        Criterion::CavityByLayer,
        Criterion::UndrainedByCover,
        Criterion::UndrainedByStrain,
        Criterion::UndrainedByLayer,
        Criterion::FirstYield,
        Criterion::UndrainedYield,
        Criterion::Tension,
        Criterion::RockJoints,
        Criterion::RockFracture,
        Criterion::Overburden,
    ];

    /// Stable id.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Criterion::CavityByCover => "cavity-by-cover",
            Criterion::CavityByStrain => "cavity-by-strain",
            Criterion::CavityByLayer => "cavity-by-layer",
            Criterion::UndrainedByCover => "undrained-by-cover",
            Criterion::UndrainedByStrain => "undrained-by-strain",
            Criterion::UndrainedByLayer => "undrained-by-layer",
            Criterion::FirstYield => "first-yield",
            Criterion::UndrainedYield => "undrained-yield",
            Criterion::Tension => "tension",
            Criterion::RockJoints => "rock-joints",
            Criterion::RockFracture => "rock-fracture",
            Criterion::Overburden => "overburden",
        }
    }

    /// What it means, in words.
    #[must_use]
    pub const fn meaning(self) -> &'static str {
        match self {
            Criterion::CavityByCover => "drained cavity, plastic zone up to a share of the cover",
            Criterion::CavityByStrain => "drained cavity, strain of the wall limited",
            Criterion::CavityByLayer => "drained cavity, plastic zone up to a weaker layer",
            Criterion::UndrainedByCover => {
                "undrained cavity, plastic zone up to a share of the cover"
            }
            Criterion::UndrainedByStrain => "undrained cavity, strain of the wall limited",
            Criterion::UndrainedByLayer => "undrained cavity, plastic zone up to a weaker layer",
            Criterion::FirstYield => "first yield of the wall, drained",
            Criterion::UndrainedYield => "first yield of the wall, undrained, unequal stresses",
            Criterion::Tension => "tension at the wall of elastic ground",
            Criterion::RockJoints => "joints of the rock open",
            Criterion::RockFracture => "sound rock cracks",
            Criterion::Overburden => "weight of all that lies above",
        }
    }
}

/// A place of the bore in the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place<'a> {
    /// Stresses at the axis.
    pub stress: Stress,
    /// Soil at the axis.
    pub soil: &'a Soil,
    /// Ground above the axis.
    pub cover: Length,
    /// The nearest weaker layer and the nearest open one, where there are any.
    pub weaker: [Option<Weaker<'a>>; 2],
}

/// A weaker or more open layer near a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weaker<'a> {
    /// Distance of its boundary from the axis.
    pub distance: Length,
    /// Stresses at the boundary.
    pub stress: Stress,
    /// Its soil.
    pub soil: &'a Soil,
    /// Ground above the boundary.
    pub cover: Length,
}

/// How far plastic zones may grow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LimitRules {
    /// Strain of the wall.
    pub wall_strain: f64,
    /// Share of the cover in sand and gravel.
    pub plastic_zone_granular: f64,
    /// Share of the cover in fine soil.
    pub plastic_zone_fine: f64,
}

/// What the ground bears at a place by every criterion, total pressures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    values: [Option<f64>; Criterion::ALL.len()],
    /// Whether the water would lift the ground, so that only its weight is left as a limit.
    pub uplift: bool,
    /// Whether the soil is open, so that pressure is not contained at all.
    pub open: bool,
    /// Index in `weaker` of the layer that gives the limit by a layer.
    pub layer: usize,
}

impl Limits {
    /// The pressure by one criterion; `None` where it says nothing on this ground.
    #[must_use]
    pub fn get(&self, criterion: Criterion) -> Option<Pressure> {
        let at = Criterion::ALL.iter().position(|c| *c == criterion)?;
        self.values.get(at).copied().flatten().map(Pressure::from_si)
    }

    /// The least of some criteria, with the one that gives it.
    #[must_use]
    pub fn least(&self, of: &[Criterion]) -> Option<(Pressure, Criterion)> {
        of.iter()
            .filter_map(|c| Some((self.get(*c)?, *c)))
            .min_by(|a, b| a.0.si().total_cmp(&b.0.si()))
    }

    fn set(&mut self, criterion: Criterion, value: Pressure) {
        if let Some(at) = Criterion::ALL.iter().position(|c| *c == criterion)
            && let Some(slot) = self.values.get_mut(at)
        {
            *slot = Some(value.si());
        }
    }
}

/// Radius of the plastic zone that a distance allows; never less than the bore, where it means first yield.
#[must_use]
pub fn plastic_zone(distance: Length, bore_radius: Length) -> Length {
    distance.max(bore_radius)
}

/// Mean total stress across the bore: mean effective stress and pore pressure.
#[must_use]
pub fn mean_effective_stress(stress: &Stress, soil: &Soil) -> Pressure {
    stress.effective_vertical * (0.5 * (1.0 + soil.k0))
}

/// What the ground bears at a place, by every criterion.
///
/// The drained cavity holds the mean effective stress `σ'₀ = (1 + K₀)/2 σ'_v` and adds the pore pressure; the undrained one
/// the mean total stress `σ'₀ + u`. A plastic zone is never taken smaller than the bore. Where the pore pressure reaches
/// the total stress only the weight of the ground above is left.
///
/// A zone that reaches a weaker layer does not break through at once: that layer bears its own limit, by cover and strain at
/// its boundary. The limit by a layer is therefore the larger of the two; an open layer bears nothing (judgement).
///
/// # Source
/// The functions that this one calls; which of them says something on a soil is said in their documentation.
/// # Errors
/// [`FluidError::OutOfRange`] names the value of the soil that cannot be used.
pub fn limits_at(
    place: &Place<'_>,
    bore_radius: Length,
    rules: &LimitRules,
) -> Result<Limits, FluidError> {
    let Place { stress, soil, .. } = place;
    let mut limits = Limits {
        values: [None; Criterion::ALL.len()],
        uplift: false,
        open: soil.kind.is_open(),
        layer: 0,
    };
    limits.set(Criterion::Overburden, stress.total_vertical);
    if stress.effective_vertical.si() <= 0.0 {
        limits.uplift = true;
        return Ok(limits);
    }
    let tension =
        tensile_limit(stress.effective_vertical, soil.k0, stress.pore, soil.tensile_strength)?;
    limits.set(Criterion::Tension, tension.max(Pressure::ZERO));
    if soil.kind.group() == SoilGroup::Rock {
        return rock(place, limits);
    }
    drained(place, bore_radius, rules, &mut limits)?;
    undrained(place, bore_radius, rules, &mut limits)?;
    by_layer(place, bore_radius, rules, &mut limits)?;
    Ok(limits)
}

/// What a weaker layer bears itself, by cover and strain at its boundary; nothing where it is open, and where water would
/// lift it.
///
/// # Errors
/// As [`limits_at`].
pub fn limit_behind(
    weaker: &Weaker<'_>,
    bore_radius: Length,
    rules: &LimitRules,
) -> Result<Pressure, FluidError> {
    if weaker.soil.kind.is_open() || weaker.stress.effective_vertical.si() <= 0.0 {
        return Ok(Pressure::ZERO);
    }
    let place =
        Place { stress: weaker.stress, soil: weaker.soil, cover: weaker.cover, weaker: [None; 2] };
    let own = limits_at(&place, bore_radius, rules)?;
    let of = [
        Criterion::CavityByCover,
        Criterion::CavityByStrain,
        Criterion::UndrainedByCover,
        Criterion::UndrainedByStrain,
    ];
    Ok(own.least(&of).map_or(Pressure::ZERO, |(least, _)| least))
}

/// Limits by the weaker layers, the lesser of both.
fn by_layer(
    place: &Place<'_>,
    bore_radius: Length,
    rules: &LimitRules,
    limits: &mut Limits,
) -> Result<(), FluidError> {
    let pore = place.stress.pore;
    let mut least: Option<f64> = None;
    for (i, weaker) in place.weaker.iter().enumerate() {
        let Some(weaker) = weaker else { continue };
        let behind = limit_behind(weaker, bore_radius, rules)?;
        let zone = plastic_zone(weaker.distance, bore_radius);
        let drained = match drained_cavity(place, bore_radius) {
            Some(cavity) => Some((cavity.pressure(zone)? + pore).max(behind)),
            None => None,
        };
        let undrained = match undrained_cavity(place, bore_radius) {
            Some(cavity) => Some(cavity.pressure(zone)?.max(behind)),
            None => None,
        };
        let here = [drained, undrained].into_iter().flatten().map(Pressure::si);
        let here = here.fold(f64::INFINITY, f64::min);
        if here < least.unwrap_or(f64::INFINITY) {
            least = Some(here);
            limits.layer = i;
            if let Some(value) = drained {
                limits.set(Criterion::CavityByLayer, value);
            }
            if let Some(value) = undrained {
                limits.set(Criterion::UndrainedByLayer, value);
            }
        }
    }
    Ok(())
}

fn drained_cavity(place: &Place<'_>, bore_radius: Length) -> Option<Cavity> {
    Some(Cavity {
        effective_stress: mean_effective_stress(&place.stress, place.soil),
        friction_angle: place.soil.friction_angle?,
        cohesion: place.soil.cohesion,
        shear_modulus: place.soil.shear_modulus?,
        bore_radius,
    })
}

fn undrained_cavity(place: &Place<'_>, bore_radius: Length) -> Option<UndrainedCavity> {
    let stress = &place.stress;
    Some(UndrainedCavity {
        total_stress: mean_effective_stress(stress, place.soil) + stress.pore,
        undrained_strength: place.soil.undrained_strength?,
        shear_modulus: place.soil.shear_modulus?,
        bore_radius,
    })
}

fn zone_by_cover(place: &Place<'_>, rules: &LimitRules) -> Length {
    let share = match place.soil.kind.group() {
        SoilGroup::Fine => rules.plastic_zone_fine,
        SoilGroup::Granular | SoilGroup::Rock => rules.plastic_zone_granular,
    };
    place.cover * share
}

fn drained(
    place: &Place<'_>,
    bore_radius: Length,
    rules: &LimitRules,
    limits: &mut Limits,
) -> Result<(), FluidError> {
    let Some(cavity) = drained_cavity(place, bore_radius) else { return Ok(()) };
    let pore = place.stress.pore;
    limits.set(Criterion::FirstYield, cavity.first_yield()? + pore);
    let zone = plastic_zone(zone_by_cover(place, rules), bore_radius);
    limits.set(Criterion::CavityByCover, cavity.pressure(zone)? + pore);
    if cavity.stiffness_ratio()? > 0.0 {
        let strained = cavity.strain_limited_pressure(rules.wall_strain)?;
        limits.set(Criterion::CavityByStrain, strained + pore);
    }
    Ok(())
}

fn undrained(
    place: &Place<'_>,
    bore_radius: Length,
    rules: &LimitRules,
    limits: &mut Limits,
) -> Result<(), FluidError> {
    let Some(cavity) = undrained_cavity(place, bore_radius) else { return Ok(()) };
    let stress = &place.stress;
    let horizontal = stress.effective_vertical * place.soil.k0 + stress.pore;
    let yields =
        undrained_yield_anisotropic(stress.total_vertical, horizontal, cavity.undrained_strength)?;
    limits.set(Criterion::UndrainedYield, yields.max(Pressure::ZERO));
    let zone = plastic_zone(zone_by_cover(place, rules), bore_radius);
    limits.set(Criterion::UndrainedByCover, cavity.pressure(zone)?);
    limits.set(Criterion::UndrainedByStrain, cavity.strain_limited_pressure(rules.wall_strain)?);
    Ok(())
}

fn rock(place: &Place<'_>, mut limits: Limits) -> Result<Limits, FluidError> {
    let stress = &place.stress;
    let vertical = stress.total_vertical;
    let horizontal = stress.effective_vertical * place.soil.k0 + stress.pore;
    let (least, greatest) = (vertical.min(horizontal), vertical.max(horizontal));
    limits.set(Criterion::RockJoints, rock_joint_limit(least)?);
    let fracture = rock_fracture_limit(least, greatest, stress.pore, place.soil.tensile_strength)?;
    limits.set(Criterion::RockFracture, fracture.max(Pressure::ZERO));
    Ok(limits)
}

#[cfg(test)]
mod tests {
    use ground::SoilKind;
    use quantity::{Angle, UnitWeight};

    use super::*;

    fn sand(k0: f64) -> Soil {
        Soil {
            name: "sand".to_owned(),
            kind: SoilKind::MediumSand,
            unit_weight: UnitWeight::from_si(18e3),
            saturated_unit_weight: UnitWeight::from_si(20e3),
            friction_angle: Some(Angle::degrees(32.0)),
            cohesion: Pressure::ZERO,
            undrained_strength: None,
            shear_modulus: Some(Pressure::from_si(5e6)),
            k0,
            tensile_strength: Pressure::ZERO,
            piezometric_level: None,
        }
    }

    fn stress() -> Stress {
        Stress {
            total_vertical: Pressure::from_si(156e3),
            pore: Pressure::from_si(58.86e3),
            effective_vertical: Pressure::from_si(97.14e3),
            soil: 0,
        }
    }

    const RULES: LimitRules =
        LimitRules { wall_strain: 0.05, plastic_zone_granular: 2.0 / 3.0, plastic_zone_fine: 0.5 };

    fn limits(soil: &Soil, weaker: Option<f64>) -> Limits {
        let gravel = Soil { kind: SoilKind::Gravel, ..sand(0.5) };
        layered(soil, weaker.map(|distance| (distance, &gravel)))
    }

    fn layered(soil: &Soil, weaker: Option<(f64, &Soil)>) -> Limits {
        let weaker = weaker.map(|(distance, soil)| Weaker {
            distance: Length::from_si(distance),
            stress: stress(),
            soil,
            cover: Length::from_si(7.0),
        });
        let cover = Length::from_si(7.9175);
        let place = Place { stress: stress(), soil, cover, weaker: [weaker, None] };
        limits_at(&place, Length::from_si(0.0825), &RULES).unwrap()
    }

    fn kpa(limits: &Limits, criterion: Criterion) -> f64 {
        limits.get(criterion).unwrap().si() / 1e3
    }

    /// Case L1 and T1 of the trade's check cases (computed): axis 8 m deep in sand.
    #[test]
    fn all_criteria_of_one_place_span_the_range_of_the_worked_case() {
        let k1 = limits(&sand(1.0), None);
        assert!((kpa(&k1, Criterion::CavityByCover) - 778.1).abs() < 0.1);
        assert!((kpa(&k1, Criterion::CavityByStrain) - 374.9).abs() < 0.1);
        let half = limits(&sand(0.5), None);
        assert!((kpa(&half, Criterion::CavityByCover) - 653.3).abs() < 0.1);
        assert!((kpa(&half, Criterion::CavityByStrain) - 320.7).abs() < 0.1);
        assert!((kpa(&half, Criterion::Tension) - 107.43).abs() < 0.01);
        assert_eq!(half.get(Criterion::UndrainedByCover), None);
        assert_eq!(half.get(Criterion::CavityByLayer), None);
    }

    #[test]
    fn a_weaker_layer_nearby_lowers_the_limit_down_to_first_yield() {
        let soil = sand(0.5);
        let far = limits(&soil, Some(2.0));
        let near = limits(&soil, Some(0.3));
        let touching = limits(&soil, Some(0.0));
        assert!(kpa(&near, Criterion::CavityByLayer) < kpa(&far, Criterion::CavityByLayer));
        let (layer, first) =
            (kpa(&touching, Criterion::CavityByLayer), kpa(&touching, Criterion::FirstYield));
        assert!((layer - first).abs() < 1e-6);
        let least = far.least(&[Criterion::CavityByStrain, Criterion::CavityByLayer]).unwrap();
        assert_eq!(least.1, Criterion::CavityByStrain);
    }

    #[test]
    fn a_weaker_layer_that_is_not_open_bears_its_own_limit() {
        let loose = Soil { friction_angle: Some(Angle::degrees(28.0)), ..sand(0.5) };
        let found = layered(&sand(0.5), Some((0.0, &loose)));
        let own = layered(&loose, None);
        let layer = kpa(&found, Criterion::CavityByLayer);
        let expected = kpa(&own, Criterion::CavityByStrain);
        assert!((layer - expected).abs() < 1e-6, "{layer} against {expected}");
        assert!(layer > kpa(&found, Criterion::FirstYield));
    }

    #[test]
    fn clay_has_undrained_limits_as_well_and_rock_only_its_own() {
        let clay = Soil {
            kind: SoilKind::SoftClay,
            undrained_strength: Some(Pressure::from_si(30e3)),
            ..sand(1.0)
        };
        let found = limits(&clay, None);
        assert!((kpa(&found, Criterion::UndrainedYield) - 186.0).abs() < 0.01);
        let rock =
            Soil { kind: SoilKind::Rock, friction_angle: None, shear_modulus: None, ..sand(0.5) };
        let found = limits(&rock, None);
        assert_eq!(found.get(Criterion::CavityByCover), None);
        let joints = kpa(&found, Criterion::RockJoints);
        assert!((joints - (0.5 * 97.14 + 58.86)).abs() < 1e-6);
    }

    #[test]
    fn where_water_lifts_the_ground_only_its_weight_is_left() {
        let soil = sand(0.5);
        let lifted = Stress { effective_vertical: Pressure::from_si(-1e3), ..stress() };
        let place =
            Place { stress: lifted, soil: &soil, cover: Length::from_si(8.0), weaker: [None; 2] };
        let found = limits_at(&place, Length::from_si(0.1), &RULES).unwrap();
        assert!(found.uplift);
        assert_eq!(found.least(&Criterion::ALL).unwrap().1, Criterion::Overburden);
    }
}
