use glam::DVec3;
use quantity::{Angle, Length};

use crate::curve::Curve;

/// Kind of a part of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SegmentKind {
    /// No curvature.
    Straight,
    /// A circular arc in one plane.
    Arc,
    /// A bend in plan laid over an inclined or curved profile; not in one plane.
    Compound,
}

/// A part of a line between two breakpoints.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Segment {
    pub(crate) curve: Curve,
    pub(crate) md: f64,
    pub(crate) length: f64,
    pub(crate) chainage: f64,
    pub(crate) position: DVec3,
}

impl Segment {
    /// Kind of the segment.
    #[must_use]
    pub fn kind(&self) -> SegmentKind {
        if self.curve.is_straight() {
            SegmentKind::Straight
        } else if self.curve.is_circular() {
            SegmentKind::Arc
        } else {
            SegmentKind::Compound
        }
    }

    /// Measured distance of its start.
    #[must_use]
    pub fn md_start(&self) -> Length {
        Length::from_si(self.md)
    }

    /// Measured distance of its end.
    #[must_use]
    pub fn md_end(&self) -> Length {
        Length::from_si(self.md + self.length)
    }

    /// Length along the bore.
    #[must_use]
    pub fn length(&self) -> Length {
        Length::from_si(self.length)
    }

    /// Radius, where it is the same all along; `None` for straights and where it changes.
    #[must_use]
    pub fn radius(&self) -> Option<Length> {
        self.curve.constant_radius().map(Length::from_si)
    }

    /// Smallest radius within the segment; `None` for straights.
    #[must_use]
    pub fn minimum_radius(&self) -> Option<Length> {
        let curvature = self.curve.curvature(self.curve.sharpest(self.length));
        (curvature > 0.0).then(|| Length::from_si(1.0 / curvature))
    }

    /// Change of inclination from start to end, positive upwards.
    #[must_use]
    pub fn vertical_turn(&self) -> Angle {
        Angle::from_si(self.curve.vertical_turn(self.length))
    }

    /// Change of azimuth from start to end, positive to the right.
    #[must_use]
    pub fn plan_turn(&self) -> Angle {
        Angle::from_si(self.curve.plan_turn(self.length))
    }

    /// Angle through which the bore turns from start to end, in whatever direction.
    #[must_use]
    pub fn turn(&self) -> Angle {
        Angle::from_si(self.curve.turn(self.length))
    }
}
