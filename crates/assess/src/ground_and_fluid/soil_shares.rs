use ground::{SoilGroup, SoilKind};
use project::Project;
use quantity::{Density, GRAVITY, Length};
use working::{Evidence, Source};

use super::Places;

/// How much of the bore lies in which soil.
pub(crate) struct SoilShares {
    /// Index of the soil and its share of the places, the greatest first.
    pub list: Vec<(usize, f64)>,
    /// Mean bulk density of the saturated ground along the bore.
    pub density: Density,
    /// Kind of the soil with the greatest share.
    pub main: SoilKind,
}

impl SoilShares {
    pub fn of(places: &Places<'_>) -> Option<Self> {
        let soils = places.model.soils();
        let mut counts = vec![0.0_f64; soils.len()];
        for place in &places.list {
            if let Some(count) = counts.get_mut(place.stress.soil) {
                *count += 1.0;
            }
        }
        let whole: f64 = counts.iter().sum();
        let mut list: Vec<_> = counts
            .iter()
            .map(|n| n / whole)
            .enumerate()
            .filter(|(_, share)| *share > 0.0)
            .collect();
        list.sort_by(|a, b| b.1.total_cmp(&a.1));
        let weight: f64 = list
            .iter()
            .filter_map(|(i, share)| Some(soils.get(*i)?.saturated_unit_weight.si() * share))
            .sum();
        let main = soils.get(list.first()?.0)?.kind;
        Some(Self { list, density: Density::from_si(weight / GRAVITY), main })
    }

    /// The shares in words.
    pub fn in_words(&self, places: &Places<'_>, length: Length) -> String {
        let soils = places.model.soils();
        let each = self.list.iter().filter_map(|(i, share)| {
            let name = &soils.get(*i)?.name;
            let metres = quantity::show_briefly(share * length.si(), quantity::unit::M);
            Some(format!("{metres} in {name}"))
        });
        each.collect::<Vec<_>>().join(", ")
    }
}

/// Fluid per ground cut that a soil usually needs.
pub(crate) fn usual_ratio(kind: SoilKind) -> (f64, Source) {
    let (ratio, text) = match kind.group() {
        SoilGroup::Granular => (3.0, "trade sources: 2 to 3 in sand and gravel"),
        SoilGroup::Fine => (4.0, "trade sources: 3 to 5 in clay and other fine soil"),
        SoilGroup::Rock => (2.0, "a supplier's page: 2 in rock"),
    };
    (ratio, Source::new(text, Evidence::Published))
}

/// Bentonite that a soil usually needs.
pub(crate) fn usual_dose(kind: SoilKind) -> (Density, Source) {
    let dose = match (kind.group(), kind.is_open()) {
        (SoilGroup::Fine, _) => 25.0,
        (SoilGroup::Granular, false) => 40.0,
        (SoilGroup::Granular, true) | (SoilGroup::Rock, _) => 50.0,
    };
    let text =
        "20 to 35 kg/m3 in clay and silt, 30 to 60 in sand and gravel; makers publish 18 to 67";
    (Density::from_si(dose), Source::new(text, Evidence::FromMemory))
}

impl Places<'_> {
    /// Shares of the soils; the bore has at least one place in the ground.
    pub fn shares(&self) -> Option<SoilShares> {
        SoilShares::of(self)
    }
}

/// The usual ratio and dose for a crossing with known ground.
pub(crate) fn main_kind(project: &Project) -> Option<SoilKind> {
    Places::along(project).ok()?.shares().map(|s| s.main)
}
