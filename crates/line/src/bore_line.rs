use glam::DVec3;
use quantity::{Angle, Length};

use crate::curve::{Curve, mirrored, rotated};
use crate::station::angle_between;
use crate::{LineError, Segment, Station};

/// How far outside its ends [`Line::at`] and [`Line::md_at_chainage`] still answer, with the end
/// itself: callers who add up lengths arrive there by rounding.
const END_TOLERANCE: f64 = 1e-6;

/// An exact bore line in three dimensions, from the rig-side entry point to the pipe-side exit
/// point.
///
/// Immutable and valid: it has at least one segment, all segments have a length, and neighbours
/// share position and tangent.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    segments: Vec<Segment>,
    length: f64,
    run: f64,
}

/// Puts segments one behind another.
#[derive(Debug)]
pub(crate) struct LineBuilder {
    segments: Vec<Segment>,
    md: f64,
    chainage: f64,
    position: DVec3,
}

impl LineBuilder {
    pub(crate) fn new(start: DVec3) -> Self {
        Self { segments: Vec::new(), md: 0.0, chainage: 0.0, position: start }
    }

    /// Adds a curve of a length greater than zero.
    pub(crate) fn push(&mut self, curve: Curve, length: f64) {
        let (md, chainage, position) = (self.md, self.chainage, self.position);
        self.segments.push(Segment { curve, md, length, chainage, position });
        self.md += length;
        self.chainage += curve.chainage(length);
        self.position += curve.place(length).displacement;
    }

    /// The line; `None` without any segment.
    pub(crate) fn finish(self) -> Option<Line> {
        (!self.segments.is_empty()).then_some(Line {
            segments: self.segments,
            length: self.md,
            run: self.chainage,
        })
    }
}

impl Line {
    /// Length along the bore.
    #[must_use]
    pub fn length(&self) -> Length {
        Length::from_si(self.length)
    }

    /// Horizontal length along the plan line.
    #[must_use]
    pub fn run(&self) -> Length {
        Length::from_si(self.run)
    }

    /// The parts of the line in order.
    #[must_use]
    pub fn segments(&self) -> &[Segment] {
        &self.segments
    }

    /// Measured distances at which a segment ends, the last being the length of the line.
    #[must_use]
    pub fn breakpoints(&self) -> Vec<Length> {
        self.segments.iter().map(Segment::md_end).collect()
    }

    /// The station at a measured distance.
    ///
    /// # Errors
    /// [`LineError::OutOfLine`] more than 1e-6 m outside the line.
    pub fn at(&self, md: Length) -> Result<Station, LineError> {
        let asked = md.si();
        if asked >= -END_TOLERANCE && asked <= self.length + END_TOLERANCE {
            Ok(self.sample(asked.clamp(0.0, self.length)))
        } else {
            Err(LineError::OutOfLine { md, length: self.length() })
        }
    }

    /// The station at a measured distance in metres, for loops.
    ///
    /// Defined for every number: before the entry and beyond the exit the line goes on straight
    /// along its end tangents.
    #[must_use]
    pub fn sample(&self, md_m: f64) -> Station {
        let index = self.segments.partition_point(|s| s.md <= md_m).saturating_sub(1);
        let segment = &self.segments[index];
        let s = md_m - segment.md;
        let inside = s.max(0.0).min(segment.length);
        let place = segment.curve.place(inside);
        let beyond = s - inside;
        let position = segment.position + place.displacement + place.tangent * beyond;
        let outside = if beyond == 0.0 { place.curvature } else { DVec3::ZERO };
        let chainage =
            segment.chainage + segment.curve.chainage(inside) + place.inclination.cos() * beyond;
        Station {
            md: Length::from_si(md_m),
            chainage: Length::from_si(chainage),
            position,
            level: Length::from_si(position.z),
            inclination: Angle::from_si(place.inclination),
            azimuth: Angle::from_si(place.azimuth),
            tangent: place.tangent,
            curvature: outside,
        }
    }

    /// Measured distance at a chainage.
    ///
    /// Where the bore is vertical one chainage has many measured distances; the answer is then one
    /// of them.
    ///
    /// # Errors
    /// [`LineError::ChainageOutOfLine`] more than 1e-6 m outside the line.
    pub fn md_at_chainage(&self, chainage: Length) -> Result<Length, LineError> {
        let asked = chainage.si();
        let outside = || LineError::ChainageOutOfLine { chainage, run: self.run() };
        if !(asked >= -END_TOLERANCE && asked <= self.run + END_TOLERANCE) {
            return Err(outside());
        }
        let asked = asked.clamp(0.0, self.run);
        let index = self.segments.partition_point(|s| s.chainage <= asked).saturating_sub(1);
        let segment = self.segments.get(index).ok_or_else(outside)?;
        let wanted = asked - segment.chainage;
        if wanted <= 0.0 {
            return Ok(segment.md_start());
        }
        if wanted >= segment.curve.chainage(segment.length) {
            return Ok(segment.md_end());
        }
        let miss = |s: f64| segment.curve.chainage(s) - wanted;
        let s = numerics::root(miss, 0.0, segment.length, 1e-12).map_err(|_| outside())?;
        Ok(Length::from_si(segment.md + s))
    }

    /// Smallest radius of the line and the first measured distance at which it occurs; `None` for a
    /// straight line.
    ///
    /// The radius is that of the curve in space, so a bend in plan over a curve in profile counts
    /// as one: 1/R² = 1/R_v² + cos⁴P/R_h². Exact: the place of the largest curvature in a segment
    /// is known in closed form.
    #[must_use]
    pub fn minimum_radius(&self) -> Option<(Length, Length)> {
        let mut sharpest: Option<(f64, f64)> = None;
        for segment in &self.segments {
            let s = segment.curve.sharpest(segment.length);
            let curvature = segment.curve.curvature(s);
            // Equal radii of one design differ by rounding; the first of them is the answer.
            if curvature > 0.0 && sharpest.is_none_or(|(k, _)| curvature > k * (1.0 + 1e-12)) {
                sharpest = Some((curvature, segment.md + s));
            }
        }
        sharpest.map(|(k, md)| (Length::from_si(1.0 / k), Length::from_si(md)))
    }

    /// Mean radius over a window: its length over the angle between the tangents at its ends.
    ///
    /// This is what a barrel or a joint sees, and what a survey of that spacing would report. Bends
    /// in opposite directions within one window cancel. The window may reach beyond the ends of the
    /// line, which go on straight. `None` where the tangents agree, and for a window without
    /// length.
    #[must_use]
    pub fn radius_over(&self, md_from: Length, md_to: Length) -> Option<Length> {
        let length = md_to.si() - md_from.si();
        if !(length > 0.0 && length.is_finite()) {
            return None;
        }
        let (from, to) = (self.sample(md_from.si()), self.sample(md_to.si()));
        let angle = angle_between(from.tangent, to.tangent);
        // Tangents of unit length agree to rounding here; a smaller angle has no digits.
        (angle > 1e-14).then(|| Length::from_si(length / angle))
    }

    /// Angle through which the bore turns from end to end, all turning added up whatever its
    /// direction.
    #[must_use]
    pub fn total_turn(&self) -> Angle {
        self.segments.iter().map(Segment::turn).sum()
    }

    /// The line with all bends in plan reversed: its image in a mirror that stands in the vertical
    /// plane through the entry point and the entry's azimuth.
    #[must_use]
    pub fn mirrored(&self) -> Self {
        let start = self.sample(0.0);
        let mirror = start.azimuth.si();
        self.mapped(
            |curve| curve.mirrored(mirror),
            |position| start.position + mirrored(position - start.position, mirror),
        )
    }

    /// The line turned about the vertical through the entry point by an angle, clockwise seen from
    /// above.
    #[must_use]
    pub fn rotated(&self, azimuth: Angle) -> Self {
        let start = self.sample(0.0).position;
        let by = azimuth.si();
        self.mapped(|curve| curve.rotated(by), |position| start + rotated(position - start, by))
    }

    fn mapped(&self, curve: impl Fn(&Curve) -> Curve, position: impl Fn(DVec3) -> DVec3) -> Self {
        let segments = self
            .segments
            .iter()
            .map(|s| Segment { curve: curve(&s.curve), position: position(s.position), ..*s })
            .collect();
        Self { segments, ..*self }
    }
}
