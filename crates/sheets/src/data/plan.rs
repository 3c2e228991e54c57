//! The line in plan, whatever the technique: places by chainage.

use project::{Coordinates, Design, HostCoordinates};
use quantity::Length;

/// Where places of a design lie.
pub(super) struct Places<'d> {
    design: &'d Design,
}

impl<'d> Places<'d> {
    pub(super) fn new(design: &'d Design) -> Self {
        Self { design }
    }

    /// Code of the grid, where one was given.
    pub(super) fn epsg(&self) -> Option<u32> {
        match self.design {
            Design::Crossing(p) => p.coordinates.as_ref().map(|c| c.epsg),
            Design::Renewal(r) => r.coordinates.as_ref().map(|c| c.epsg),
        }
    }

    /// Name of the datum of the levels.
    pub(super) fn datum(&self) -> Option<&'d str> {
        match self.design {
            Design::Crossing(p) => p.coordinates.as_ref()?.datum.as_deref(),
            Design::Renewal(r) => r.coordinates.as_ref()?.datum.as_deref(),
        }
    }

    /// Grid place, or place from the entry point without a grid, at a chainage and an offset to the right; the line goes on
    /// straight beyond its ends. `None` for a renewal without coordinates and beyond its points.
    pub(super) fn at(&self, chainage: f64, offset: f64) -> Option<(f64, f64)> {
        match self.design {
            Design::Crossing(p) => {
                let inside = chainage.clamp(0.0, p.line.run().si());
                let md = p.line.md_at_chainage(Length::from_si(inside)).ok()?;
                let s = p.line.at(md).ok()?;
                let (sin, cos) = s.azimuth.si().sin_cos();
                let beyond = chainage - inside;
                let x = s.position.x + offset * cos + beyond * sin;
                let y = s.position.y - offset * sin + beyond * cos;
                Some(in_grid(p.coordinates.as_ref(), x, y))
            }
            Design::Renewal(r) => of_host(r.coordinates.as_ref()?, chainage),
        }
    }

    /// Corners of the axis in plan, close enough to lie within some 0.2 mm of every arc: chainage, x, y.
    pub(super) fn axis(&self) -> Vec<(f64, f64, f64)> {
        match self.design {
            Design::Crossing(p) => {
                let mut chainages: Vec<f64> = vec![0.0];
                for s in p.line.segments() {
                    let (from, to) = (s.md_start().si(), s.md_end().si());
                    for md in steps(from, to, s.plan_turn().si()) {
                        chainages.push(p.line.sample(md).chainage.si());
                    }
                }
                chainages
                    .into_iter()
                    .filter_map(|x| self.at(x, 0.0).map(|(e, n)| (x, e, n)))
                    .collect()
            }
            Design::Renewal(r) => {
                let Some(c) = &r.coordinates else { return Vec::new() };
                let (from, to) = (r.host.axis.from().si(), r.host.axis.to().si());
                let between =
                    c.points.iter().map(|p| p.chainage.si()).filter(|x| *x > from && *x < to);
                let all = std::iter::once(from).chain(between).chain([to]);
                all.filter_map(|x| self.at(x, 0.0).map(|(e, n)| (x, e, n))).collect()
            }
        }
    }
}

/// Places on a stretch up to its end so that a chord lies within 0.2 mm of an arc that turns by an angle.
pub(super) fn steps(from: f64, to: f64, turn: f64) -> Vec<f64> {
    const SAGITTA: f64 = 0.2e-3;
    const MOST: f64 = 20_000.0;
    let sagitta = (to - from) * turn.abs() / 8.0;
    let count = (sagitta / SAGITTA).sqrt().ceil().clamp(1.0, MOST);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "1 to 20 000")]
    let whole = count as u32;
    (1..=whole)
        .map(|k| if k == whole { to } else { from + (to - from) * f64::from(k) / count })
        .collect()
}

fn in_grid(coordinates: Option<&Coordinates>, x: f64, y: f64) -> (f64, f64) {
    coordinates.map_or((x, y), |c| {
        let (e, n) = c.of(Length::from_si(x), Length::from_si(y));
        (e.si(), n.si())
    })
}

fn of_host(coordinates: &HostCoordinates, chainage: f64) -> Option<(f64, f64)> {
    coordinates.at(Length::from_si(chainage)).map(|(e, n)| (e.si(), n.si()))
}
