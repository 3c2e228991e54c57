use glam::DVec3;
use quantity::{Angle, Length, unit};

use crate::bore_line::LineBuilder;
use crate::curve::arc_between;
use crate::range::Faults;
use crate::station::{angle_between, direction};
use crate::{Field, Line, LineError};

/// A direction of the bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Attitude {
    /// Angle from the horizontal, positive where the bore rises.
    pub inclination: Angle,
    /// Direction in plan from north, clockwise.
    pub azimuth: Angle,
}

/// One reading of a survey.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurveyStation {
    /// Measured distance from the entry point.
    pub md: Length,
    /// Angle from the horizontal, positive where the bore rises.
    pub inclination: Angle,
    /// Direction in plan from north, clockwise.
    pub azimuth: Angle,
}

/// Displacement and curvature of one survey interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurveyStep {
    /// Displacement to the north.
    pub north: Length,
    /// Displacement to the east.
    pub east: Length,
    /// Displacement upwards.
    pub rise: Length,
    /// Angle between the two directions.
    pub dogleg: Angle,
    /// Radius of the arc; `None` where the interval is straight.
    pub radius: Option<Length>,
    /// Ratio of the sum of the two half tangents to their chord, at least 1.
    pub ratio_factor: f64,
}

/// Largest change of direction in one interval, 60 degrees. Judgement: no rod turns so far between
/// two readings; the arc itself loses its meaning only at 180 degrees.
const LARGEST_DOGLEG: f64 = std::f64::consts::FRAC_PI_3;

/// Unit vectors that make a smaller angle agree to rounding, rad.
const STRAIGHT: f64 = 1e-14;

/// Displacement over one survey interval taken as one circular arc (minimum curvature).
///
/// ```text
/// b  = 2·asin( |t2 − t1| / 2 )                dogleg
/// RF = (2/b)·tan(b/2)                         ratio factor; 1 on a straight
/// ΔX = (Δs/2)·RF·(t1 + t2),   R = Δs/b
/// t  = ( cos P sin A, cos P cos A, sin P )    east, north, up
/// ```
/// | symbol | meaning                        | unit | argument        |
/// |--------|--------------------------------|------|-----------------|
/// | Δs     | course length                  | m    | `course_length` |
/// | P, A   | inclination and azimuth        | rad  | `from`, `to`    |
/// | b, R   | dogleg and radius of the arc   | rad, m | returned      |
///
/// Valid for b ≤ 60°. The dogleg is taken from the half angle, which keeps its digits where the arc
/// cosine of the usual form loses them.
///
/// # Source
/// Minimum-curvature method of directional surveying, as in a published worked example; derived
/// again. Deviation: none.
/// # Errors
/// [`LineError::OutOfRange`] for the course length or an angle; [`LineError::DoglegTooLarge`].
/// Stations in errors are counted as 1 (`from`) and 2 (`to`).
/// # Checked by
/// published example: `cases/survey/minimum-curvature-example.toml`; property: points of an arc are
/// found again.
pub fn survey_step(
    course_length: Length,
    from: Attitude,
    to: Attitude,
) -> Result<SurveyStep, LineError> {
    let mut faults = Faults::default();
    faults.length(Field::StationMd(1), course_length.si());
    for (i, attitude) in [from, to].iter().enumerate() {
        faults.inclination(Field::StationInclination(i), attitude.inclination.si());
        faults.azimuth(Field::StationAzimuth(i), attitude.azimuth.si());
    }
    if let Some(fault) = faults.0.into_iter().next() {
        return Err(fault);
    }
    let t1 = direction(from.inclination.si(), from.azimuth.si());
    let t2 = direction(to.inclination.si(), to.azimuth.si());
    let dogleg = checked_dogleg(t1, t2, 1)?;
    let half = 0.5 * dogleg;
    let ratio_factor = if half < 1e-4 { 1.0 + half * half / 3.0 } else { half.tan() / half };
    let step = (t1 + t2) * (0.5 * course_length.si() * ratio_factor);
    Ok(SurveyStep {
        north: Length::from_si(step.y),
        east: Length::from_si(step.x),
        rise: Length::from_si(step.z),
        dogleg: Angle::from_si(dogleg),
        radius: (dogleg > STRAIGHT).then(|| Length::from_si(course_length.si() / dogleg)),
        ratio_factor,
    })
}

fn checked_dogleg(t1: DVec3, t2: DVec3, index: usize) -> Result<f64, LineError> {
    let dogleg = angle_between(t1, t2);
    if dogleg <= LARGEST_DOGLEG * (1.0 + 1e-12) {
        return Ok(dogleg);
    }
    let (dogleg, allowed) = (Angle::from_si(dogleg), Angle::from_si(LARGEST_DOGLEG));
    Err(LineError::DoglegTooLarge { index, dogleg, allowed })
}

impl Line {
    /// The line of a survey: between neighbouring stations one circular arc (minimum curvature).
    ///
    /// `start` is the position of the first station (x east, y north, z level, metres), whose
    /// measured distance must be zero.
    ///
    /// # Errors
    /// All faults of the list at once: fewer than two stations, measured distances that do not
    /// rise, directions that differ by more than 60 degrees from one station to the next.
    pub fn from_survey(start: DVec3, stations: &[SurveyStation]) -> Result<Self, Vec<LineError>> {
        let mut faults = Faults::default();
        for coordinate in [start.x, start.y, start.z] {
            faults.place(Field::StartPosition, coordinate);
        }
        for (i, station) in stations.iter().enumerate() {
            faults.place(Field::StationMd(i), station.md.si());
            faults.inclination(Field::StationInclination(i), station.inclination.si());
            faults.azimuth(Field::StationAzimuth(i), station.azimuth.si());
        }
        if !faults.0.is_empty() {
            return Err(faults.0);
        }
        let mut faults = Vec::new();
        if stations.len() < 2 {
            let found = stations.len();
            faults.push(LineError::TooFew { field: Field::Stations, found, needed: 2 });
        }
        if let Some(first) = stations.first().filter(|s| s.md.si() != 0.0) {
            faults.push(LineError::OutOfRange {
                field: Field::StationMd(0),
                found: quantity::show(first.md.si(), unit::M),
                allowed: "0, the entry point",
            });
        }
        let mut builder = LineBuilder::new(start);
        for (i, pair) in stations.windows(2).enumerate() {
            let [one, two] = pair else { continue };
            let course = two.md.si() - one.md.si();
            if course <= 0.0 {
                let (md, previous) = (two.md, one.md);
                faults.push(LineError::NotRising { index: i + 1, md, previous });
                continue;
            }
            let from = (one.inclination.si(), one.azimuth.si());
            let to = (two.inclination.si(), two.azimuth.si());
            let (t1, t2) = (direction(from.0, from.1), direction(to.0, to.1));
            if let Err(fault) = checked_dogleg(t1, t2, i + 1) {
                faults.push(fault);
                continue;
            }
            builder.push(arc_between(from, to, course), course);
        }
        if !faults.is_empty() {
            return Err(faults);
        }
        builder.finish().ok_or_else(|| {
            vec![LineError::TooFew { field: Field::Stations, found: stations.len(), needed: 2 }]
        })
    }
}
