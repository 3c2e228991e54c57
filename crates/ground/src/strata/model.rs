use quantity::Length;

use super::boring::{Boring, Span};
use super::column::{Column, Layer};
use super::matching::{Between, layers_between};
use crate::{GroundError, Soil};

/// Layers thinner than this are left out of a column, m.
const THINNEST: f64 = 1e-9;

/// Soils and borings of a site: which soil lies where along the line.
#[derive(Debug, Clone, PartialEq)]
pub struct GroundModel {
    soils: Vec<Soil>,
    /// In the order of their chainage.
    borings: Vec<Boring>,
    /// Between each boring and the next.
    between: Vec<Vec<Between>>,
}

impl GroundModel {
    /// A model from soils and borings, in any order.
    ///
    /// # Errors
    /// All faults at once: no boring, a boring without strata, a base that does not lie below the one before, a soil that
    /// does not exist, two borings at one chainage, numbers that are not finite.
    pub fn new(soils: Vec<Soil>, mut borings: Vec<Boring>) -> Result<Self, Vec<GroundError>> {
        let mut faults = Vec::new();
        if borings.is_empty() {
            faults.push(GroundError::NoBoring);
        }
        for boring in &borings {
            faults.extend(faults_of(boring, soils.len()));
        }
        borings.sort_by(|a, b| a.chainage.si().total_cmp(&b.chainage.si()));
        for pair in borings.windows(2) {
            if let [a, b] = pair
                && a.chainage == b.chainage
            {
                let (name, other) = (b.name.clone(), a.name.clone());
                faults.push(GroundError::SamePlace { name, other, chainage: b.chainage });
            }
        }
        if !faults.is_empty() {
            return Err(faults);
        }
        let spans: Vec<Vec<Span>> = borings.iter().map(Boring::spans).collect();
        let between = spans
            .windows(2)
            .map(|pair| if let [a, b] = pair { layers_between(a, b) } else { Vec::new() })
            .collect();
        Ok(Self { soils, borings, between })
    }

    /// The soils.
    #[must_use]
    pub fn soils(&self) -> &[Soil] {
        &self.soils
    }

    /// The borings in the order of their chainage.
    #[must_use]
    pub fn borings(&self) -> &[Boring] {
        &self.borings
    }

    /// The ground at a chainage, cut off at the level of the ground line there.
    ///
    /// Between borings boundaries are straight; beside the first and the last one they go on level. Where the ground line
    /// lies above the borings' ground, the first layer reaches up to it; the lowest layer goes on downwards without end.
    #[must_use]
    pub fn column(&self, chainage: Length, ground: Length) -> Column {
        let x = chainage.si();
        let after = self.borings.partition_point(|b| b.chainage.si() <= x);
        let (layers, known_to) = match (after.checked_sub(1), self.borings.get(after)) {
            (Some(i), Some(right)) => match (self.borings.get(i), self.between.get(i)) {
                (Some(left), Some(between)) => {
                    let (a, b) = (left.chainage.si(), right.chainage.si());
                    let share = (x - a) / (b - a);
                    let mix = |l: f64, r: f64| l + share * (r - l);
                    let layers = between
                        .iter()
                        .map(|l| Layer {
                            soil: l.soil,
                            top: mix(l.left.0, l.right.0),
                            base: mix(l.left.1, l.right.1),
                        })
                        .collect();
                    (layers, mix(left.end().si(), right.end().si()))
                }
                _ => (Vec::new(), f64::NAN),
            },
            (None, Some(first)) => of_boring(first),
            (Some(i), None) => self.borings.get(i).map_or((Vec::new(), f64::NAN), of_boring),
            (None, None) => (Vec::new(), f64::NAN),
        };
        cut(layers, ground.si(), known_to)
    }

    /// Whether a chainage lies between the first and the last boring.
    #[must_use]
    pub fn is_between(&self, chainage: Length) -> bool {
        match (self.borings.first(), self.borings.last()) {
            (Some(first), Some(last)) => chainage >= first.chainage && chainage <= last.chainage,
            _ => false,
        }
    }
}

fn of_boring(boring: &Boring) -> (Vec<Layer>, f64) {
    let layers = boring
        .spans()
        .into_iter()
        .map(|s| Layer { soil: s.soil, top: s.top, base: s.base })
        .collect();
    (layers, boring.end().si())
}

/// Layers below the ground line; the first reaches up to it, the last goes on downwards.
fn cut(mut layers: Vec<Layer>, ground: f64, known_to: f64) -> Column {
    let top = layers.first().map_or(ground, |l| l.top);
    if let Some(last) = layers.iter_mut().rfind(|l| l.top - l.base > THINNEST) {
        last.base = f64::NEG_INFINITY;
    }
    layers.retain(|l| l.top - l.base > THINNEST && l.base < ground);
    if let Some(first) = layers.first_mut() {
        first.top = ground;
    }
    Column { layers, ground, known_to, raised: (ground - top).max(0.0) }
}

fn faults_of(boring: &Boring, soils: usize) -> Vec<GroundError> {
    let name = || boring.name.clone();
    let mut faults = Vec::new();
    let places = [boring.chainage, boring.offset, boring.level];
    if boring.strata.is_empty() {
        faults.push(GroundError::NoStratum { name: name() });
    }
    if places.iter().any(|p| !p.is_finite()) {
        faults.push(GroundError::BadBoring { name: name(), what: "a place that is no number" });
    }
    let mut top = boring.level;
    for (index, stratum) in boring.strata.iter().enumerate() {
        if stratum.soil >= soils {
            faults.push(GroundError::BadBoring { name: name(), what: "a soil that is not listed" });
        }
        if !(stratum.base < top && stratum.base.is_finite()) {
            let (found, above) = (stratum.base, top);
            faults.push(GroundError::StratumOrder { name: name(), index, found, above });
        }
        top = stratum.base;
    }
    faults
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::strata::Stratum;
    use crate::test_soils::{clay, sand};

    fn m(v: f64) -> Length {
        Length::from_si(v)
    }

    fn boring(name: &str, chainage: f64, level: f64, strata: &[(usize, f64)]) -> Boring {
        Boring {
            name: name.to_owned(),
            chainage: m(chainage),
            offset: Length::ZERO,
            level: m(level),
            strata: strata
                .iter()
                .map(|(soil, base)| Stratum { soil: *soil, base: m(*base) })
                .collect(),
            groundwater_level: None,
            penetration: Vec::new(),
            cone: Vec::new(),
        }
    }

    fn model() -> GroundModel {
        let borings = vec![
            boring("B2", 100.0, 2.0, &[(0, -2.0), (1, -12.0)]),
            boring("B1", 0.0, 4.0, &[(0, 0.0), (1, -10.0)]),
        ];
        GroundModel::new(vec![clay(), sand()], borings).unwrap()
    }

    fn bases(column: &Column) -> Vec<(usize, f64, f64)> {
        column.layers.iter().map(|l| (l.soil, l.top, l.base)).collect()
    }

    #[test]
    fn boundaries_are_straight_between_borings_and_level_beside_them() {
        let column = model().column(m(25.0), m(3.5));
        assert_eq!(bases(&column), [(0, 3.5, -0.5), (1, -0.5, f64::NEG_INFINITY)]);
        assert_eq!(column.known_to, -10.5);
        let beside = model().column(m(-20.0), m(4.0));
        assert_eq!(bases(&beside), [(0, 4.0, 0.0), (1, 0.0, f64::NEG_INFINITY)]);
        let beyond = model().column(m(140.0), m(2.0));
        assert_eq!(beyond.layers[0].base, -2.0);
        assert!(model().is_between(m(100.0)) && !model().is_between(m(100.1)));
    }

    #[test]
    fn a_creek_cuts_layers_away_and_a_bank_is_of_the_first_layer() {
        let creek = model().column(m(50.0), m(-3.0));
        assert_eq!(bases(&creek), [(1, -3.0, f64::NEG_INFINITY)]);
        let bank = model().column(m(50.0), m(6.0));
        assert_eq!(bank.layers[0].top, 6.0);
        assert_eq!(bank.raised, 3.0);
        assert_eq!(bank.layer_at(m(7.0)), None);
        assert_eq!(bank.layer_at(m(-1.0)).unwrap().soil, 0);
        assert!(bank.is_known(m(-11.0)) && !bank.is_known(m(-11.1)));
    }

    #[test]
    fn all_faults_of_the_borings_come_at_once() {
        let borings =
            vec![boring("B1", 0.0, 4.0, &[(0, 5.0), (7, -10.0)]), boring("B2", 0.0, 4.0, &[])];
        let faults = GroundModel::new(vec![clay(), sand()], borings).unwrap_err();
        let codes: Vec<_> = faults.iter().map(GroundError::code).collect();
        assert_eq!(codes, ["stratum_order", "bad_boring", "no_stratum", "same_place"]);
        assert_eq!(GroundModel::new(vec![], vec![]).unwrap_err()[0].code(), "no_boring");
    }
}
