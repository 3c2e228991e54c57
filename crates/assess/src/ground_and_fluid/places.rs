use fluid::{Place, Weaker};
use ground::{Column, GroundModel, Soil, Stress, WaterAt, stress_at, weaker_layers};
use project::Project;
use quantity::{Length, Pressure};

use crate::context::Missing;

/// Greatest distance between places, m.
const SPACING: f64 = 0.5;

/// A place of the bore with the ground around it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct BorePlace {
    pub md: Length,
    pub chainage: Length,
    /// Level of the axis.
    pub level: Length,
    pub ground_level: Length,
    /// Level up to which the ground is full of water, and free water stands.
    pub water_level: Length,
    pub stress: Stress,
    /// The nearest weaker layer and the nearest open one.
    pub weaker: [Option<WeakerLayer>; 2],
    /// Whether cover runs out here by the user's word.
    pub in_end_zone: bool,
    /// Whether borings reach down to the axis here.
    pub known: bool,
}

/// A weaker layer near the bore.
#[derive(Debug, Clone, Copy)]
pub(crate) struct WeakerLayer {
    /// Distance of its boundary from the axis.
    pub distance: Length,
    /// Stresses at the boundary, and its soil.
    pub stress: Stress,
    /// Ground above the boundary.
    pub cover: Length,
}

/// Places along the bore, in the order of the measured distance; those at which the axis lies above ground are left out.
pub(crate) struct Places<'a> {
    pub model: &'a GroundModel,
    pub list: Vec<BorePlace>,
    /// Measured distances of the first and the last place at which the axis lies above the ground.
    pub above: Option<(Length, Length)>,
    /// By how much the ground line lies above the borings' ground at most, and where.
    pub raised: Option<(Length, Length)>,
}

impl BorePlace {
    /// The ground above the axis.
    pub fn cover(&self) -> Length {
        self.ground_level - self.level
    }

    /// As the fluid crate wants it.
    pub fn for_limits<'s>(&self, soils: &'s [Soil]) -> Option<Place<'s>> {
        let soil = soils.get(self.stress.soil)?;
        let weaker = self.weaker.map(|w| w.and_then(|w| w.for_limits(soils)));
        Some(Place { stress: self.stress, soil, cover: self.cover(), weaker })
    }
}

impl<'a> Places<'a> {
    pub fn along(project: &'a Project) -> Result<Self, Missing> {
        let Some(model) = &project.strata else {
            return Err(Missing {
                keys: vec!["/ground/soil".to_owned(), "/ground/boring".to_owned()],
                because: "no soils and borings are given".to_owned(),
            });
        };
        let water = Water::of(project)?;
        let site = &project.site;
        let length = project.line.length().si();
        let count = (length / SPACING).ceil().max(1.0);
        let end_of_zone = project.line.run() - site.end_zone_exit;
        let mut places = Self { model, list: Vec::new(), above: None, raised: None };
        let mut k = 0.0;
        while k <= count {
            let station = project.line.sample(length * k / count);
            k += 1.0;
            let ground_level = site.ground.level_extended(station.chainage);
            let column = model.column(station.chainage, ground_level);
            let raised = Length::from_si(column.raised);
            if raised > places.raised.map_or(Length::ZERO, |(by, _)| by) {
                places.raised = Some((raised, station.chainage));
            }
            let water_level = water.at(station.chainage, ground_level);
            let at = WaterAt { level: water_level };
            let Some(stress) = stress_at(&column, model.soils(), at, station.level) else {
                let first = places.above.map_or(station.md, |(first, _)| first);
                places.above = Some((first, station.md));
                continue;
            };
            let load = stress.effective_vertical.max(Pressure::ZERO);
            places.list.push(BorePlace {
                md: station.md,
                chainage: station.chainage,
                level: station.level,
                ground_level,
                water_level,
                stress,
                weaker: weaker(&column, model.soils(), at, station.level, load),
                in_end_zone: station.chainage < site.end_zone_entry
                    || station.chainage > end_of_zone,
                known: column.is_known(station.level),
            });
        }
        if places.list.is_empty() {
            let because = "the whole bore lies above the ground line".to_owned();
            return Err(Missing { keys: Vec::new(), because });
        }
        Ok(places)
    }

    /// The soil of a place.
    pub fn soil(&self, place: &BorePlace) -> Option<&'a Soil> {
        self.model.soils().get(place.stress.soil)
    }
}

impl WeakerLayer {
    /// As the fluid crate wants it.
    pub fn for_limits<'s>(&self, soils: &'s [Soil]) -> Option<Weaker<'s>> {
        let soil = soils.get(self.stress.soil)?;
        Some(Weaker { distance: self.distance, stress: self.stress, soil, cover: self.cover })
    }
}

/// The nearest weaker and the nearest open layer with the stresses at their boundaries.
fn weaker(
    column: &Column,
    soils: &[Soil],
    water: WaterAt,
    level: Length,
    load: Pressure,
) -> [Option<WeakerLayer>; 2] {
    weaker_layers(column, soils, level, load).map(|near| {
        let near = near?;
        let boundary = if near.above { level + near.distance } else { level - near.distance };
        let stress = Stress { soil: near.soil, ..stress_at(column, soils, water, boundary)? };
        let cover = Length::from_si(column.ground) - boundary;
        Some(WeakerLayer { distance: near.distance, stress, cover })
    })
}

/// Water along the line while the bore is drilled.
struct Water<'a> {
    project: &'a Project,
    /// Levels found in borings, by chainage, where the site gives none.
    found: Vec<(f64, f64)>,
}

impl<'a> Water<'a> {
    fn of(project: &'a Project) -> Result<Self, Missing> {
        if project.site.free_water_level.is_some() && project.site.low_water_level.is_none() {
            return Err(Missing {
                keys: vec!["/site/low_water_level".to_owned()],
                because: "the lowest level of the free water is not given".to_owned(),
            });
        }
        let mut found: Vec<(f64, f64)> = Vec::new();
        if project.site.groundwater_level.is_none() {
            let borings = project.strata.iter().flat_map(|m| m.borings());
            found
                .extend(borings.filter_map(|b| Some((b.chainage.si(), b.groundwater_level?.si()))));
            if found.is_empty() {
                return Err(Missing {
                    keys: vec!["/site/groundwater_level".to_owned()],
                    because: "the level of the groundwater is not given".to_owned(),
                });
            }
        }
        Ok(Self { project, found })
    }

    /// Free water at its lowest where the ground line lies below it; else the groundwater, not above the ground.
    fn at(&self, chainage: Length, ground: Length) -> Length {
        let site = &self.project.site;
        if let Some(low) = site.low_water_level
            && ground <= low
        {
            return low;
        }
        site.groundwater_level.unwrap_or_else(|| self.between(chainage)).min(ground)
    }

    fn between(&self, chainage: Length) -> Length {
        let x = chainage.si();
        let after = self.found.partition_point(|(at, _)| *at <= x);
        let before = after.checked_sub(1).and_then(|i| self.found.get(i));
        let level = match (before, self.found.get(after)) {
            (Some((x0, z0)), Some((x1, z1))) => z0 + (x - x0) / (x1 - x0) * (z1 - z0),
            (Some((_, z)), None) | (None, Some((_, z))) => *z,
            // There is at least one.
            (None, None) => f64::NAN,
        };
        Length::from_si(level)
    }
}
