use project::Project;
use quantity::Unit;

/// Sets a value; `false` where the design cannot have it.
pub(crate) type Set<D> = Box<dyn Fn(&mut D, f64) -> bool>;

/// One value of the file that may be changed; of a crossing unless said otherwise.
pub(crate) struct Knob<D = Project> {
    pub parameter: String,
    pub unit: Unit,
    pub from: f64,
    /// As far as the search goes.
    pub to: f64,
    /// Values are rounded away from `from` to whole steps, so that they are values a person would write.
    pub step: f64,
    /// What the change means, where it is not plain.
    pub note: &'static str,
    /// Whether it changes more than one value.
    pub several: bool,
    pub set: Set<D>,
}

/// A change that has no size.
pub(crate) struct Choice<D = Project> {
    pub parameter: &'static str,
    pub from: String,
    pub to: String,
    pub set: Box<dyn Fn(&mut D)>,
}

/// Most steps between the value now and the end of the search.
const MOST_STEPS: f64 = 1e6;

impl<D: Clone> Knob<D> {
    /// The smallest whole step away from the value now at which a test passes, with the design changed to it.
    ///
    /// The test is taken as monotone between a value that fails and one that passes; the far end may be impossible, so
    /// that the search walks out in growing strides.
    pub fn smallest(&self, design: &D, passes: impl Fn(&D) -> bool) -> Option<(f64, D)> {
        let steps = ((self.to - self.from) / self.step).abs().floor();
        if !(1.0..=MOST_STEPS).contains(&steps) {
            return None;
        }
        let toward = (self.to - self.from).signum();
        let now = self.from / self.step;
        let first = if toward > 0.0 { (now + 1e-9).floor() } else { (now - 1e-9).ceil() };
        let value = |k: f64| (first + toward * k) * self.step;
        let changed = |k: f64| {
            let mut trial = design.clone();
            (self.set)(&mut trial, value(k)).then_some(trial)
        };
        let good = |k: f64| changed(k).is_some_and(|t| passes(&t));
        let (mut low, mut high) = (0.0, steps.min(4.0));
        while !good(high) {
            if high >= steps {
                return None;
            }
            low = high;
            high = (high * 3.0).min(steps);
        }
        while high - low > 1.0 {
            let middle = ((low + high) / 2.0).floor();
            if good(middle) {
                high = middle;
            } else {
                low = middle;
            }
        }
        Some((value(high), changed(high)?))
    }
}
