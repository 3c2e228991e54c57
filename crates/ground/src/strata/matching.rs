//! Which stratum of one boring goes on in the next one.

use super::boring::Span;

/// A layer between two borings: its top and base at each of them; without thickness where it pinches out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Between {
    pub soil: usize,
    pub left: (f64, f64),
    pub right: (f64, f64),
}

/// Layers between two borings, from the top down.
///
/// Strata of the same soil are joined in their order, so that the joined thickness is greatest. A stratum that the other
/// boring has not got pinches out at that boring: at the boundary between its neighbours, or inside a neighbour that goes
/// on above and below it (a lens).
///
/// Judgement: borings say nothing on what lies between them; straight boundaries are the plainest reading.
pub(crate) fn layers_between(left: &[Span], right: &[Span]) -> Vec<Between> {
    let joined = joined_strata(left, right);
    let mut groups = Vec::with_capacity(joined.len());
    let mut free = (0, 0);
    for (k, &(i, j)) in joined.iter().enumerate() {
        let next = joined.get(k + 1).copied().unwrap_or((left.len(), right.len()));
        groups.push(group(left, right, (i, j), free, next));
        free = groups.last().map_or(free, |g: &Group| (g.left.1 + 1, g.right.1 + 1));
    }
    let mut out = Out { list: Vec::new(), left: top_of(left), right: top_of(right) };
    let (mut at_left, mut at_right) = (0, 0);
    for g in &groups {
        out.alone(&left[at_left..g.left.0], &right[at_right..g.right.0]);
        out.together(&left[g.left.0..=g.left.1], &right[g.right.0..=g.right.1]);
        (at_left, at_right) = (g.left.1 + 1, g.right.1 + 1);
    }
    out.alone(&left[at_left..], &right[at_right..]);
    out.list
}

/// Strata that go on in each other, first and last index on each side; one side has a single stratum.
struct Group {
    left: (usize, usize),
    right: (usize, usize),
}

/// Widens a joined pair over strata of one side that lie inside the other's single stratum: a lens.
fn group(
    left: &[Span],
    right: &[Span],
    (i, j): (usize, usize),
    free: (usize, usize),
    next: (usize, usize),
) -> Group {
    let soil = left[i].soil;
    let alone_right = (free.1 == j, j + 1 == next.1);
    let alone_left = (free.0 == i, i + 1 == next.0);
    let reach = |side: &[Span], at: usize, from: usize, to: usize, up: bool, down: bool| {
        let first = if up { (from..=at).find(|k| side[*k].soil == soil) } else { None };
        let last = if down { (at..to).rev().find(|k| side[*k].soil == soil) } else { None };
        (first.unwrap_or(at), last.unwrap_or(at))
    };
    let wide_left = reach(left, i, free.0, next.0, alone_right.0, alone_right.1);
    if wide_left != (i, i) {
        return Group { left: wide_left, right: (j, j) };
    }
    let wide_right = reach(right, j, free.1, next.1, alone_left.0, alone_left.1);
    Group { left: (i, i), right: wide_right }
}

fn top_of(side: &[Span]) -> f64 {
    side.first().map_or(0.0, |s| s.top)
}

/// The merged list as it grows, with the level reached on each side.
struct Out {
    list: Vec<Between>,
    left: f64,
    right: f64,
}

impl Out {
    fn push(&mut self, soil: usize, left_base: f64, right_base: f64) {
        let (left, right) = ((self.left, left_base), (self.right, right_base));
        self.list.push(Between { soil, left, right });
        (self.left, self.right) = (left_base, right_base);
    }

    /// Strata that only one side has.
    fn alone(&mut self, left: &[Span], right: &[Span]) {
        for span in left {
            self.push(span.soil, span.base, self.right);
        }
        for span in right {
            self.push(span.soil, self.left, span.base);
        }
    }

    /// Strata of one soil on both sides, with lenses of others inside one of them.
    fn together(&mut self, left: &[Span], right: &[Span]) {
        let (many, single, mirrored) = match (left, right) {
            (many, [single]) => (many, *single, false),
            ([single], many) => (many, *single, true),
            _ => return,
        };
        let soil = single.soil;
        let whole: f64 = many.iter().filter(|s| s.soil == soil).map(|s| s.thickness()).sum();
        let mut base = single.top;
        for span in many {
            if span.soil == soil && whole > 0.0 {
                base -= single.thickness() * span.thickness() / whole;
            }
            if mirrored {
                self.push(span.soil, base, span.base);
            } else {
                self.push(span.soil, span.base, base);
            }
        }
        // What rounding left of the single stratum.
        if mirrored {
            self.left = single.base
        } else {
            self.right = single.base
        }
        if let Some(last) = self.list.last_mut() {
            if mirrored { last.left.1 = single.base } else { last.right.1 = single.base }
        }
    }
}

/// Pairs of strata of the same soil in their order, of the greatest joined thickness; among equal ones the pairs that lie
/// nearest in level.
fn joined_strata(left: &[Span], right: &[Span]) -> Vec<(usize, usize)> {
    let (n, m) = (left.len(), right.len());
    // Best value of the strata from (i, j) on.
    let mut best = vec![vec![0.0_f64; m + 1]; n + 1];
    let worth = |a: Span, b: Span| {
        let apart = ((a.top + a.base) - (b.top + b.base)).abs() / 2.0;
        a.thickness() + b.thickness() + 1e-6 / (1.0 + apart)
    };
    for i in (0..n).rev() {
        for j in (0..m).rev() {
            let mut value = best[i + 1][j].max(best[i][j + 1]);
            if left[i].soil == right[j].soil {
                value = value.max(best[i + 1][j + 1] + worth(left[i], right[j]));
            }
            best[i][j] = value;
        }
    }
    let mut pairs = Vec::new();
    let (mut i, mut j) = (0, 0);
    while i < n && j < m {
        let together = left[i].soil == right[j].soil
            && best[i][j] <= best[i + 1][j + 1] + worth(left[i], right[j]);
        if together {
            pairs.push((i, j));
            (i, j) = (i + 1, j + 1);
        } else if best[i + 1][j] >= best[i][j + 1] {
            i += 1;
        } else {
            j += 1;
        }
    }
    pairs
}

#[cfg(test)]
mod tests {
    use super::*;

    fn spans(top: f64, list: &[(usize, f64)]) -> Vec<Span> {
        let mut at = top;
        list.iter()
            .map(|(soil, base)| {
                let span = Span { soil: *soil, top: at, base: *base };
                at = *base;
                span
            })
            .collect()
    }

    const CLAY: usize = 0;
    const SAND: usize = 1;
    const PEAT: usize = 2;

    #[test]
    fn a_stratum_of_both_borings_goes_straight_from_one_to_the_other() {
        let layers = layers_between(
            &spans(4.0, &[(CLAY, 0.0), (SAND, -9.0)]),
            &spans(3.0, &[(CLAY, -2.0), (SAND, -9.0)]),
        );
        assert_eq!(
            layers,
            [
                Between { soil: CLAY, left: (4.0, 0.0), right: (3.0, -2.0) },
                Between { soil: SAND, left: (0.0, -9.0), right: (-2.0, -9.0) },
            ]
        );
    }

    #[test]
    fn a_stratum_of_one_boring_pinches_out_at_the_other() {
        let layers = layers_between(
            &spans(4.0, &[(CLAY, 2.0), (PEAT, 1.0), (SAND, -9.0)]),
            &spans(4.0, &[(CLAY, 1.5), (SAND, -9.0)]),
        );
        assert_eq!(layers[1], Between { soil: PEAT, left: (2.0, 1.0), right: (1.5, 1.5) });
        assert_eq!(layers.len(), 3);
    }

    #[test]
    fn a_lens_lies_inside_the_stratum_that_goes_on_around_it() {
        let layers = layers_between(
            &spans(4.0, &[(SAND, 1.0), (CLAY, 0.0), (SAND, -9.0)]),
            &spans(4.0, &[(SAND, -8.0)]),
        );
        let soils: Vec<_> = layers.iter().map(|l| l.soil).collect();
        assert_eq!(soils, [SAND, CLAY, SAND]);
        // 3 m of sand above and 9 m below the lens share 12 m on the other side.
        assert_eq!(layers[1].right, (1.0, 1.0));
        assert_eq!(layers[2].right, (1.0, -8.0));
    }

    #[test]
    fn a_lens_on_the_right_mirrors_one_on_the_left() {
        let a = spans(4.0, &[(SAND, 1.0), (CLAY, 0.0), (SAND, -9.0)]);
        let b = spans(4.0, &[(SAND, -8.0)]);
        let mirrored: Vec<_> = layers_between(&b, &a)
            .into_iter()
            .map(|l| Between { soil: l.soil, left: l.right, right: l.left })
            .collect();
        assert_eq!(mirrored, layers_between(&a, &b));
    }

    #[test]
    fn borings_without_a_common_soil_wedge_out_and_meet() {
        let layers = layers_between(&spans(4.0, &[(CLAY, -9.0)]), &spans(3.0, &[(SAND, -8.0)]));
        assert_eq!(layers.len(), 2);
        assert_eq!(layers[0], Between { soil: CLAY, left: (4.0, -9.0), right: (3.0, 3.0) });
        assert_eq!(layers[1], Between { soil: SAND, left: (-9.0, -9.0), right: (3.0, -8.0) });
    }

    #[test]
    fn every_side_is_filled_from_top_to_end_without_gap() {
        use proptest::prelude::*;
        let side = proptest::collection::vec((0usize..4, 0.1f64..5.0), 1..8);
        proptest!(|(a in side.clone(), b in side)| {
            let make = |list: &[(usize, f64)]| {
                let mut at = 5.0;
                list.iter().map(|(soil, thick)| {
                    let span = Span { soil: *soil, top: at, base: at - thick };
                    at -= thick;
                    span
                }).collect::<Vec<_>>()
            };
            let (a, b) = (make(&a), make(&b));
            let layers = layers_between(&a, &b);
            let ends = |of: fn(&Between) -> (f64, f64)| {
                let mut at = 5.0_f64;
                for l in &layers {
                    let (top, base) = of(l);
                    prop_assert!((top - at).abs() < 1e-9 && base <= top + 1e-9);
                    at = base;
                }
                Ok(at)
            };
            let left = ends(|l| l.left)?;
            let right = ends(|l| l.right)?;
            prop_assert!((left - a.last().unwrap().base).abs() < 1e-9);
            prop_assert!((right - b.last().unwrap().base).abs() < 1e-9);
            // Each side shows its own strata.
            for (side, of) in [(&a, (|l: &Between| l.left) as fn(&Between) -> (f64, f64)), (&b, |l| l.right)] {
                for span in side {
                    let found: f64 = layers.iter().filter(|l| l.soil == span.soil)
                        .map(|l| { let (t, b) = of(l); (t.min(span.top) - b.max(span.base)).max(0.0) })
                        .sum();
                    prop_assert!((found - span.thickness()).abs() < 1e-6);
                }
            }
        });
    }
}
