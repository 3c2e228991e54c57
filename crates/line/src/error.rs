use std::fmt;

use quantity::{Angle, Length, show, unit};

/// One of the two ends of a bore line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// The rig side, measured distance zero.
    Entry,
    /// The pipe side.
    Exit,
}

/// A value in the description of a line.
///
/// Indices count from zero; texts for people count from one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Field {
    /// Level of the entry point.
    EntryLevel,
    /// Level of the exit point.
    ExitLevel,
    /// Level of the level part of the bore.
    LowestLevel,
    /// Depth of the level part below the entry point.
    EntryDepth,
    /// Depth of the level part below the exit point.
    ExitDepth,
    /// Horizontal length from entry to exit along the plan line.
    Run,
    /// Entry angle.
    EntryAngle,
    /// Exit angle.
    ExitAngle,
    /// Radius of the entry curve in profile.
    EntryRadius,
    /// Radius of the exit curve in profile.
    ExitRadius,
    /// Azimuth at the entry point.
    Azimuth,
    /// Chainage at which a plan bend starts.
    BendStart(usize),
    /// Radius of a plan bend.
    BendRadius(usize),
    /// Angle of a plan bend.
    BendAngle(usize),
    /// Position of the entry point.
    StartPosition,
    /// Inclination at the entry point.
    StartInclination,
    /// The list of elements.
    Elements,
    /// Length of a straight element.
    ElementLength(usize),
    /// Radius of an arc element.
    ElementRadius(usize),
    /// Angle turned by an arc element.
    ElementTurn(usize),
    /// Toolface of an arc element.
    ElementToolface(usize),
    /// The list of survey stations.
    Stations,
    /// Measured distance of a survey station.
    StationMd(usize),
    /// Inclination of a survey station.
    StationInclination(usize),
    /// Azimuth of a survey station.
    StationAzimuth(usize),
}

/// Why a line cannot be had from its description, or a value not from the line.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum LineError {
    /// A value lies outside what is possible or what the method holds for.
    #[error("{field} must be {allowed}, but was {found}")]
    OutOfRange {
        /// The value at fault.
        field: Field,
        /// What was found, with its unit.
        found: String,
        /// What is allowed.
        allowed: &'static str,
    },
    /// The level part lies above an end point.
    #[error("the level part lies {} above the {end} point; it must lie below", up_to(*by))]
    LevelPartAboveEnd {
        /// The end.
        end: End,
        /// By how much.
        by: Length,
    },
    /// A horizontal end never reaches the depth.
    #[error(
        "with {} angle of 0 deg the bore never reaches the level part {} below",
        end.with_article(),
        quantity::show(depth.si(), unit::M)
    )]
    NeverReachesDepth {
        /// The end.
        end: End,
        /// Depth of the level part below it.
        depth: Length,
    },
    /// The curve of one end is deeper than the level part.
    #[error(
        "the {end} curve needs {} more depth{}",
        up_to(*shortfall),
        alternatives(&[
            at_most("a radius", radius_at_most.si(), unit::M),
            at_most(&format!("{} angle", end.with_article()), angle_at_most.si(), unit::DEG),
        ])
    )]
    CurveNeedsDepth {
        /// The end.
        end: End,
        /// Depth that is missing.
        shortfall: Length,
        /// Largest radius that fits the depth at the given angle.
        radius_at_most: Length,
        /// Largest angle that fits the depth at the given radius.
        angle_at_most: Angle,
    },
    /// Both curves overlap in plan: no room for a level part.
    #[error(
        "the level part is {} short: it takes a run of at least {}{}",
        up_to(*shortfall),
        at_least_text(run_at_least.si(), unit::M),
        alternatives(&[
            radii_at_most.and_then(|(a, b)| at_most_both("radii", a.si(), b.si(), unit::M)),
            depth_less.map(|d| format!("{} less depth", at_least_text(d.si(), unit::M))),
            angles_at_least.map(|(a, b)| at_least_both("angles", a.si(), b.si(), unit::DEG)),
        ])
    )]
    LevelPartShort {
        /// Length that is missing.
        shortfall: Length,
        /// Shortest run that works with all else unchanged.
        run_at_least: Length,
        /// Entry and exit radius, both smaller by one factor, that work; `None` where even zero
        /// would not do.
        radii_at_most: Option<(Length, Length)>,
        /// By how much the level part must rise; `None` where a curve would no longer fit its
        /// depth.
        depth_less: Option<Length>,
        /// Entry and exit angle, both steeper by one amount, that work; `None` where a curve would
        /// no longer fit.
        angles_at_least: Option<(Angle, Angle)>,
    },
    /// Two bends in plan overlap.
    #[error(
        "bend {} starts {} before bend {} ends; move it, or make a radius or an angle smaller",
        second + 1, up_to(*overlap), first + 1
    )]
    BendsOverlap {
        /// The earlier bend.
        first: usize,
        /// The later bend.
        second: usize,
        /// Length of the overlap along the chainage.
        overlap: Length,
    },
    /// A bend in plan begins before the entry point or ends beyond the exit point.
    #[error(
        "bend {} runs from chainage {from} to {to}, but the line from 0 to {run}; \
         move it, or make its radius or angle smaller",
        index + 1
    )]
    BendLeavesLine {
        /// The bend.
        index: usize,
        /// Chainage of its start.
        from: Length,
        /// Chainage of its end.
        to: Length,
        /// Run of the line.
        run: Length,
    },
    /// A list is too short.
    #[error("{field} must have at least {needed} entries, but had {found}")]
    TooFew {
        /// The list.
        field: Field,
        /// How many it has.
        found: usize,
        /// How many it needs.
        needed: usize,
    },
    /// Measured distances of a survey do not rise.
    #[error(
        "{} must be greater than {previous}, that of the station before, but was {md}",
        Field::StationMd(*index)
    )]
    NotRising {
        /// The station.
        index: usize,
        /// Its measured distance.
        md: Length,
        /// Measured distance of the station before.
        previous: Length,
    },
    /// Two neighbouring stations differ more in direction than a drilled interval can.
    #[error(
        "between stations {} and {} the direction changes by {dogleg}; more than {allowed} in one \
         interval is a fault of the data: check inclination and azimuth of both",
        index, index + 1
    )]
    DoglegTooLarge {
        /// The later station.
        index: usize,
        /// The change of direction.
        dogleg: Angle,
        /// The largest that is accepted.
        allowed: Angle,
    },
    /// A toolface has no meaning where the bore is vertical.
    #[error("{field} has no meaning: the bore is vertical where the arc starts")]
    Vertical {
        /// The value without meaning.
        field: Field,
    },
    /// A measured distance lies outside the line.
    #[error("measured distance must be 0 to {length}, but was {md}")]
    OutOfLine {
        /// What was asked for.
        md: Length,
        /// Length of the line.
        length: Length,
    },
    /// A chainage lies outside the line.
    #[error("chainage must be 0 to {run}, but was {chainage}")]
    ChainageOutOfLine {
        /// What was asked for.
        chainage: Length,
        /// Run of the line.
        run: Length,
    },
}

impl LineError {
    /// Stable code of the error.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            LineError::OutOfRange { .. } => "out_of_range",
            LineError::LevelPartAboveEnd { .. } => "level_part_above_end",
            LineError::NeverReachesDepth { .. } => "never_reaches_depth",
            LineError::CurveNeedsDepth { .. } => "curve_needs_depth",
            LineError::LevelPartShort { .. } => "level_part_short",
            LineError::BendsOverlap { .. } => "bends_overlap",
            LineError::BendLeavesLine { .. } => "bend_leaves_line",
            LineError::TooFew { .. } => "too_few",
            LineError::NotRising { .. } => "not_rising",
            LineError::DoglegTooLarge { .. } => "dogleg_too_large",
            LineError::Vertical { .. } => "vertical",
            LineError::OutOfLine { .. } => "out_of_line",
            LineError::ChainageOutOfLine { .. } => "chainage_out_of_line",
        }
    }

    /// The value to look at first; `None` for questions put to a finished line.
    #[must_use]
    pub const fn field(&self) -> Option<Field> {
        match self {
            LineError::OutOfRange { field, .. }
            | LineError::TooFew { field, .. }
            | LineError::Vertical { field } => Some(*field),
            LineError::LevelPartAboveEnd { .. } => Some(Field::LowestLevel),
            LineError::NeverReachesDepth { end, .. } => Some(match end {
                End::Entry => Field::EntryAngle,
                End::Exit => Field::ExitAngle,
            }),
            LineError::CurveNeedsDepth { end, .. } => Some(match end {
                End::Entry => Field::EntryRadius,
                End::Exit => Field::ExitRadius,
            }),
            LineError::LevelPartShort { .. } => Some(Field::Run),
            LineError::BendsOverlap { second, .. } => Some(Field::BendStart(*second)),
            LineError::BendLeavesLine { index, .. } => Some(Field::BendStart(*index)),
            LineError::NotRising { index, .. } => Some(Field::StationMd(*index)),
            LineError::DoglegTooLarge { index, .. } => Some(Field::StationInclination(*index)),
            LineError::OutOfLine { .. } | LineError::ChainageOutOfLine { .. } => None,
        }
    }
}

impl End {
    fn with_article(self) -> &'static str {
        match self {
            End::Entry => "an entry",
            End::Exit => "an exit",
        }
    }
}

impl fmt::Display for End {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            End::Entry => "entry",
            End::Exit => "exit",
        })
    }
}

impl fmt::Display for Field {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Field::EntryLevel => f.write_str("entry level"),
            Field::ExitLevel => f.write_str("exit level"),
            Field::LowestLevel => f.write_str("lowest level"),
            Field::EntryDepth => f.write_str("depth below the entry"),
            Field::ExitDepth => f.write_str("depth below the exit"),
            Field::Run => f.write_str("run"),
            Field::EntryAngle => f.write_str("entry angle"),
            Field::ExitAngle => f.write_str("exit angle"),
            Field::EntryRadius => f.write_str("entry radius"),
            Field::ExitRadius => f.write_str("exit radius"),
            Field::Azimuth => f.write_str("azimuth"),
            Field::BendStart(i) => write!(f, "start of bend {}", i + 1),
            Field::BendRadius(i) => write!(f, "radius of bend {}", i + 1),
            Field::BendAngle(i) => write!(f, "angle of bend {}", i + 1),
            Field::StartPosition => f.write_str("position of the entry point"),
            Field::StartInclination => f.write_str("inclination at the entry point"),
            Field::Elements => f.write_str("the list of elements"),
            Field::ElementLength(i) => write!(f, "length of element {}", i + 1),
            Field::ElementRadius(i) => write!(f, "radius of element {}", i + 1),
            Field::ElementTurn(i) => write!(f, "turn of element {}", i + 1),
            Field::ElementToolface(i) => write!(f, "toolface of element {}", i + 1),
            Field::Stations => f.write_str("the survey"),
            Field::StationMd(i) => write!(f, "measured distance of station {}", i + 1),
            Field::StationInclination(i) => write!(f, "inclination of station {}", i + 1),
            Field::StationAzimuth(i) => write!(f, "azimuth of station {}", i + 1),
        }
    }
}

/// A number with two decimals at most, no trailing zeros.
fn hundredths(value: f64) -> String {
    let text = format!("{value:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Limits are printed rounded to the side on which they still hold.
fn at_least_text(si: f64, unit: quantity::Unit) -> String {
    format!("{} {}", hundredths((unit.from_si(si) * 100.0).ceil() / 100.0), unit.symbol())
}

fn at_most_text(si: f64, unit: quantity::Unit) -> Option<String> {
    let floor = (unit.from_si(si) * 100.0).floor() / 100.0;
    (floor > 0.0).then(|| format!("{} {}", hundredths(floor), unit.symbol()))
}

fn up_to(length: Length) -> String {
    if length.si() < 0.01 {
        show(length.si(), unit::MM)
    } else {
        at_least_text(length.si(), unit::M)
    }
}

fn at_most(what: &str, si: f64, unit: quantity::Unit) -> Option<String> {
    at_most_text(si, unit).map(|text| format!("{what} of at most {text}"))
}

fn at_most_both(what: &str, entry: f64, exit: f64, unit: quantity::Unit) -> Option<String> {
    let (entry, exit) = (at_most_text(entry, unit)?, at_most_text(exit, unit)?);
    Some(format!("{what} of at most {entry} (entry) and {exit} (exit)"))
}

fn at_least_both(what: &str, entry: f64, exit: f64, unit: quantity::Unit) -> String {
    let (entry, exit) = (at_least_text(entry, unit), at_least_text(exit, unit));
    format!("{what} of at least {entry} (entry) and {exit} (exit)")
}

fn alternatives(texts: &[Option<String>]) -> String {
    texts.iter().flatten().map(|text| format!(", or {text}")).collect()
}
