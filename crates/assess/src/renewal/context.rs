//! What several checks of a renewal share.

use std::cell::OnceCell;

use ground::Soil;
use project::{NeighbourPlace, Renewal, Run, Stretch};
use quantity::{Length, unit};
use working::{Builder, Working};

use super::forces::{self, RunForces};
use crate::context::Missing;

/// The renewal with everything that more than one check needs.
pub(super) struct Context<'a> {
    pub renewal: &'a Renewal,
    forces: OnceCell<Result<Vec<RunForces>, Missing>>,
    explaining: bool,
}

/// Spacing of the places along the old main, m.
pub(super) const SPACING: f64 = 1.0;
/// How far inside a stretch its ends are looked at; a quarter of the stretch where that is less.
const INSIDE: Length = Length::from_si(1e-3);

impl<'a> Context<'a> {
    pub fn new(renewal: &'a Renewal, explaining: bool) -> Self {
        Self { renewal, forces: OnceCell::new(), explaining }
    }

    /// Forces of every run; computed when first asked for.
    pub fn forces(&self) -> &Result<Vec<RunForces>, Missing> {
        self.forces.get_or_init(|| forces::all(self))
    }

    /// A working, only when somebody asked for it.
    pub fn working(&self, build: impl FnOnce(&mut Builder)) -> Option<Working> {
        self.explaining.then(|| {
            let mut builder = Builder::new();
            build(&mut builder);
            builder.finish()
        })
    }

    /// Whether somebody asked for workings.
    pub fn explaining(&self) -> bool {
        self.explaining
    }

    /// The soil around the old main.
    pub fn soil(&self) -> Result<&'a Soil, Missing> {
        let soil =
            self.renewal.soil().ok_or_else(|| missing("/ground/fill", "the fill is not known"))?;
        if soil.friction_angle.is_none() || soil.shear_modulus.is_none() {
            let because = format!("{} is rock: nothing here says how a head opens it", soil.name);
            return Err(Missing { keys: Vec::new(), because });
        }
        Ok(soil)
    }

    /// The expander.
    pub fn expander(&self) -> Result<Length, Missing> {
        self.renewal.burst.expander_diameter.ok_or_else(|| Missing {
            keys: vec!["/burst/expander_diameter".to_owned(), "/string/socket_diameter".to_owned()],
            because: "neither the expander nor the socket is known".to_owned(),
        })
    }

    /// Depth of the axis below ground.
    pub fn axis_depth(&self, chainage: Length) -> Length {
        let r = self.renewal;
        r.street.ground.level_extended(chainage) - r.host.axis.level_extended(chainage)
    }

    /// Ground above the crown of the new barrel.
    pub fn cover(&self, chainage: Length) -> Length {
        self.axis_depth(chainage) - self.renewal.string.pipe.barrel_diameter() / 2.0
    }

    /// The stretch of a run at a chainage; a boundary within the run belongs to the stretch before it.
    pub fn stretch_in(&self, run: &Run, chainage: Length) -> Option<&'a Stretch> {
        self.stretches_of(run).find(|s| chainage >= s.from && chainage <= s.to)
    }

    /// Stretches that a run passes through.
    pub fn stretches_of(&self, run: &Run) -> impl Iterator<Item = &'a Stretch> {
        let (from, to) = run.stretch();
        self.renewal.host.stretches.iter().filter(move |s| s.from < to && s.to > from)
    }

    /// Places along a run, from the launch to the machine pit: even steps, and every chainage at which something
    /// begins, ends or turns, so that nothing is too short to be met.
    pub fn places(&self, run: &Run) -> Vec<Length> {
        let count = (run.length().si() / SPACING).ceil().max(1.0);
        let mut list = self.marks(run);
        let mut k = 0.0;
        while k <= count {
            list.push(run.launch + (run.machine - run.launch) * (k / count));
            k += 1.0;
        }
        list.sort_by(|a, b| (*a - run.launch).abs().si().total_cmp(&(*b - run.launch).abs().si()));
        // A mark that rounding sets beside a step is the same place.
        list.dedup_by(|a, b| (*a - *b).abs().si() < 1e-9);
        list
    }

    /// Chainages between the ends of a run at which something changes.
    fn marks(&self, run: &Run) -> Vec<Length> {
        let r = self.renewal;
        let (from, to) = run.stretch();
        let mut list: Vec<Length> = Vec::new();
        for s in self.stretches_of(run) {
            // Just inside: at the boundary itself two stretches meet.
            let inside = ((s.to - s.from) / 4.0).min(INSIDE);
            list.extend((s.from > from).then_some(s.from + inside));
            list.extend((s.to < to).then_some(s.to - inside));
        }
        list.extend(r.host.axis.points().map(|(x, _)| x));
        list.extend(r.street.ground.points().map(|(x, _)| x));
        list.extend(r.host.features.iter().map(|f| f.at));
        for n in &r.street.neighbours {
            match n.place {
                NeighbourPlace::Crossing { at } => list.push(at),
                NeighbourPlace::Beside { from, to, .. } => list.extend([from, to]),
            }
        }
        list.retain(|x| *x > from && *x < to);
        list
    }

    /// Mean over a run of what a function gives at its places, by the lengths between them.
    pub fn mean(&self, run: &Run, of: impl Fn(Length) -> Length) -> Length {
        let places = self.places(run);
        let pieces = places.windows(2).map(|two| match two {
            [a, b] => (of(*a) + of(*b)).si() / 2.0 * (*b - *a).abs().si(),
            _ => 0.0,
        });
        Length::from_si(pieces.sum::<f64>() / run.length().si())
    }

    /// Whether a chainage lies in any run.
    pub fn in_a_run(&self, chainage: Length) -> bool {
        self.renewal.runs.iter().any(|r| r.holds(chainage))
    }
}

/// A value that is missing.
pub(super) fn missing(key: &str, because: &str) -> Missing {
    Missing { keys: vec![key.to_owned()], because: because.to_owned() }
}

/// Millimetres as a person reads them.
pub(super) fn mm(length: Length) -> String {
    quantity::show_briefly(length.si(), unit::MM)
}
