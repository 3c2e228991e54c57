//! Where the fluid presses more than may act, stage by stage.

use fluid::Criterion;
use quantity::{Length, Pressure, unit};

use super::{FluidRun, Places, StageRun};
use crate::assessment::{Reading, StageLimits};

/// A stretch of the bore, by chainage.
pub(crate) type Stretch = (Length, Length);

impl StageRun {
    /// Stretches on which the pressure exceeds what may act, within the end zones or outside them.
    pub fn exceeded(&self, places: &Places<'_>, in_end_zone: bool) -> Vec<Stretch> {
        let mut list: Vec<Stretch> = Vec::new();
        let mut open = false;
        for (place, at) in self.places.iter().zip(&places.list) {
            let over = at.in_end_zone == in_end_zone && place.utilisation() > 1.0;
            match list.last_mut() {
                Some(last) if over && open => last.1 = at.chainage,
                _ if over => list.push((at.chainage, at.chainage)),
                _ => {}
            }
            open = over;
        }
        list
    }
}

/// Stretches in words; `None` where there are none.
pub(crate) fn stretches_in_words(list: &[Stretch]) -> Option<String> {
    /// More than these are counted, not listed.
    const LISTED: usize = 4;
    let words = |(from, to): &Stretch| {
        if from == to { format!("at {from}") } else { format!("from {from} to {to}") }
    };
    let shown: Vec<String> = list.iter().take(LISTED).map(words).collect();
    match list.len() {
        0 => None,
        n if n > LISTED => {
            Some(format!("{} and on {} more stretches", shown.join(", "), n - LISTED))
        }
        _ => Some(shown.join(", ")),
    }
}

/// Pressure and limits of every stage that could be computed.
pub(crate) fn stage_limits(run: &FluidRun<'_>) -> Vec<StageLimits> {
    let Ok(places) = &run.places else { return Vec::new() };
    run.stages
        .iter()
        .filter_map(|(id, name, _, made)| {
            let made = made.as_ref().ok()?;
            let index = made.worst.or(made.worst_in_zone)?;
            let (worst, at) = (made.places.get(index)?, places.list.get(index)?);
            let kpa = |p: Pressure| Reading::new(p.si(), unit::KPA);
            let limit = |of: &[Criterion]| worst.limits.least(of).map(|(p, _)| kpa(p));
            let in_zone = made.worst_in_zone.and_then(|i| made.places.get(i));
            Some(StageLimits {
                id: id.clone(),
                name: name.clone(),
                chainage: Reading::new(at.chainage.si(), unit::M),
                pressure: kpa(worst.pressure.total()),
                allowed: kpa(worst.allowed()),
                limit: kpa(worst.limit),
                first_yield: limit(&[Criterion::FirstYield, Criterion::UndrainedYield]),
                tension: limit(&[Criterion::Tension]),
                weight: kpa(at.stress.total_vertical),
                used_in_end_zones: in_zone.map(|p| p.utilisation()).filter(|u| u.is_finite()),
                exceeded: pairs(&made.exceeded(places, false)),
                exceeded_in_end_zones: pairs(&made.exceeded(places, true)),
            })
        })
        .collect()
}

fn pairs(list: &[Stretch]) -> Vec<(f64, f64)> {
    list.iter().map(|(from, to)| (from.si(), to.si())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn many_stretches_are_counted() {
        let m = Length::from_si;
        assert_eq!(stretches_in_words(&[]), None);
        assert_eq!(stretches_in_words(&[(m(1.0), m(1.0))]).unwrap(), "at 1 m");
        let six = vec![(m(1.0), m(2.0)); 6];
        assert!(stretches_in_words(&six).unwrap().ends_with("and on 2 more stretches"));
    }
}
