use line::Line;
use quantity::{Angle, Force, ForcePerLength, Length, Pressure};

/// What the chain model needs to know, as a caller has it.
#[derive(Debug, Clone, Copy)]
pub struct Setup<'a> {
    /// The bore line.
    pub line: &'a Line,
    /// Diameter of the bore during the pull.
    pub bore_diameter: Length,
    /// Laying length of one pipe.
    pub laying_length: Length,
    /// Outside diameter of the barrel with its coating.
    pub barrel_diameter: Length,
    /// Largest outside diameter, at the socket with its protection.
    pub socket_diameter: Length,
    /// Weight per length in the fluid, averaged over a pipe; positive sinks.
    pub net_weight: ForcePerLength,
    /// Friction of the sockets against the bore wall.
    pub friction: f64,
    /// Shear stress of the fluid on the barrel.
    pub fluid_stress: Pressure,
    /// Distance from the pulling head to the reamer, along swivel and shackles, which keeps its end on the axis; zero
    /// holds the head itself on the axis.
    pub head_link: Length,
    /// The part of the string that is not yet in the bore.
    pub outside: Outside<'a>,
}

/// The part of the string outside the bore.
#[derive(Debug, Clone, Copy)]
pub struct Outside<'a> {
    /// Weight per length in air, with what is inside.
    pub weight: ForcePerLength,
    /// Friction against what carries the string.
    pub friction: f64,
    /// Slope in the direction of the pull; positive climbs towards the bore.
    pub slope: Angle,
    /// Lengths of string joined so far, each with the head position (measured along the bore from the pipe side) up
    /// to which it is pulled, rising; the last one reaches the end of the bore.
    pub joined: &'a [(Length, Length)],
}

/// A setup that can be computed, in SI numbers.
#[derive(Debug, Clone, Copy)]
pub struct ChainSetup<'a> {
    pub(super) line: &'a Line,
    pub(super) length: f64,
    pub(super) a: f64,
    pub(super) barrel_radius: f64,
    pub(super) bore_radius: f64,
    pub(super) play: f64,
    pub(super) weight: f64,
    pub(super) friction: f64,
    pub(super) drag: f64,
    pub(super) head_link: f64,
    /// Whether the next string has been joined at a stop between strings.
    pub(super) joined_at_stops: bool,
    pub(super) outside: Outside<'a>,
}

/// Why the chain model cannot be computed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ChainError {
    /// A value lies outside what the model can use.
    #[error("{quantity} must be {allowed}, but was {found}")]
    OutOfRange {
        /// What.
        quantity: &'static str,
        /// The range.
        allowed: String,
        /// The value.
        found: String,
    },
    /// The largest outside diameter does not go into the bore.
    #[error("the socket ({socket}) does not pass the bore ({bore})")]
    DoesNotFit {
        /// Largest outside diameter.
        socket: Length,
        /// Bore diameter.
        bore: Length,
    },
    /// The pull locks: friction at a joint exceeds what any pull can overcome.
    #[error("no pull moves the string: friction {friction} on a joint angle of {angle}")]
    Locked {
        /// Friction coefficient.
        friction: f64,
        /// Joint angle.
        angle: Angle,
    },
    /// The tensions did not settle.
    #[error(
        "tensions did not settle at head position {head}: change {change:.2e} after {rounds} rounds"
    )]
    NotConverged {
        /// Head position, measured from the pipe side.
        head: Length,
        /// Largest relative change of the last round.
        change: f64,
        /// Rounds made.
        rounds: usize,
    },
}

fn refuse(quantity: &'static str, allowed: &str, found: impl ToString) -> ChainError {
    ChainError::OutOfRange { quantity, allowed: allowed.to_owned(), found: found.to_string() }
}

impl<'a> ChainSetup<'a> {
    /// Checks a setup.
    ///
    /// # Errors
    /// [`ChainError::OutOfRange`] with the quantity, [`ChainError::DoesNotFit`].
    pub fn new(s: &Setup<'a>) -> Result<Self, ChainError> {
        let positive = |name, value: Length| {
            if value.si() > 0.0 && value.is_finite() {
                Ok(value.si())
            } else {
                Err(refuse(name, "greater than 0", value))
            }
        };
        let a = positive("laying length", s.laying_length)?;
        let barrel = positive("barrel diameter", s.barrel_diameter)?;
        let socket = positive("socket diameter", s.socket_diameter)?;
        let bore = positive("bore diameter", s.bore_diameter)?;
        let length = s.line.length().si();
        if length < 2.0 * a * (1.0 - 1e-9) {
            return Err(refuse("bore length", "at least two laying lengths", s.line.length()));
        }
        if socket > bore {
            return Err(ChainError::DoesNotFit {
                socket: s.socket_diameter,
                bore: s.bore_diameter,
            });
        }
        if barrel > socket {
            return Err(refuse(
                "barrel diameter",
                "at most the socket diameter",
                s.barrel_diameter,
            ));
        }
        for (name, value) in [("friction", s.friction), ("support friction", s.outside.friction)] {
            if !(0.0..=2.0).contains(&value) {
                return Err(refuse(name, "0 to 2", value));
            }
        }
        if !(s.fluid_stress.si() >= 0.0 && s.fluid_stress.is_finite()) {
            return Err(refuse("fluid stress", "0 or greater", s.fluid_stress));
        }
        if !s.net_weight.is_finite() || !s.outside.weight.is_finite() {
            return Err(refuse("weight per length", "finite", s.net_weight));
        }
        let head_link = s.head_link.si();
        if !(0.0..=100.0).contains(&head_link) {
            return Err(refuse("distance from head to reamer", "0 to 100 m", s.head_link));
        }
        if s.outside.slope.si().abs() > 1.0 {
            return Err(refuse("slope outside the bore", "within 57 deg", s.outside.slope));
        }
        Ok(Self {
            line: s.line,
            length,
            a,
            barrel_radius: barrel / 2.0,
            bore_radius: bore / 2.0,
            play: (bore - socket) / 2.0,
            weight: s.net_weight.si() * a,
            friction: s.friction,
            drag: s.fluid_stress.si() * std::f64::consts::PI * barrel * a,
            head_link,
            joined_at_stops: false,
            outside: s.outside,
        })
    }

    /// The same setup with the wall friction multiplied, for a start after a stop, and with the stress of the fluid at
    /// rest where it is the larger one. What carries the string outside the bore is not lubricated and keeps its
    /// friction. At a stop between strings the next one has been joined.
    #[must_use]
    pub fn restarted(&self, factor: f64, fluid_stress: Pressure) -> Self {
        let drag = fluid_stress.si() * std::f64::consts::TAU * self.barrel_radius * self.a;
        Self {
            friction: self.friction * factor,
            drag: drag.max(self.drag),
            joined_at_stops: true,
            ..*self
        }
    }

    /// Length of string outside the bore when the head is at `s` from the pipe side.
    ///
    /// Heads stand a straight laying length apart and stops are counted along the curve: a quarter of a pipe decides on
    /// which side of a stop a head is.
    pub(super) fn outside_length(&self, s: f64) -> f64 {
        let near = 0.25 * self.a;
        let reached = |until: Length| {
            if self.joined_at_stops { s < until.si() - near } else { s <= until.si() + near }
        };
        let joined = self
            .outside
            .joined
            .iter()
            .find(|(_, until)| reached(*until))
            .or(self.outside.joined.last())
            .map_or(s, |(length, _)| length.si());
        (joined - s).max(0.0)
    }

    /// Pull at the bore's pipe-side end that moves the string outside, and the force that holds it back when it
    /// would run ahead on its slope.
    pub(super) fn outside_pull(&self, s: f64) -> (f64, f64) {
        let slope = self.outside.slope.si();
        let force = self.outside.weight.si()
            * self.outside_length(s)
            * (self.outside.friction * slope.cos() + slope.sin());
        (force.max(0.0), (-force).max(0.0))
    }

    /// Force of the pull at the pipe-side end of the bore with the head at a distance from it.
    #[must_use]
    pub fn pull_outside(&self, head: Length) -> Force {
        Force::from_si(self.outside_pull(head.si()).0)
    }
}
