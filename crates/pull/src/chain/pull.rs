use quantity::{Angle, Force, Length};

use super::march::March;
use super::nodes::Grid;
use super::setup::{ChainError, ChainSetup};

/// The pull for every position of the head.
#[derive(Debug, Clone, PartialEq)]
pub struct Pull {
    /// One entry a head position, from the first pipe to the end of the bore.
    pub heads: Vec<HeadPosition>,
}

/// A greatest or smallest value and the measured distance where it stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extreme<T> {
    /// The value.
    pub value: T,
    /// Measured distance from the entry point.
    pub md: Length,
}

/// The chain with its head at one place.
#[derive(Debug, Clone, PartialEq)]
pub struct HeadPosition {
    /// Distance of the head from the pipe-side end, along the bore.
    pub advance: Length,
    /// Measured distance of the head from the entry point.
    pub md: Length,
    /// Pull at the head.
    pub force: Force,
    /// Part of it that moves the string outside the bore.
    pub outside: Force,
    /// Greatest tension in any barrel.
    pub tension: Extreme<Force>,
    /// Greatest angle at any joint in the bore.
    pub angle: Extreme<Angle>,
    /// Greatest angle apart from the first joint behind the head and the last one at the mouth.
    pub angle_within: Extreme<Angle>,
    /// Greatest force between a joint and the wall.
    pub side_force: Extreme<Force>,
    /// Smallest gap between a barrel's middle and the wall; negative when the barrel would have to bend.
    pub clearance: Extreme<Length>,
    /// Force that must hold the string back where it would run ahead of the pull; zero in an ordinary pull.
    pub held_back: Force,
    /// Rounds between positions and forces.
    pub rounds: usize,
}

/// One joint of the chain with its head at one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JointState {
    /// Measured distance from the entry point.
    pub md: Length,
    /// Tension behind.
    pub tension_behind: Force,
    /// Tension ahead.
    pub tension_ahead: Force,
    /// Force between joint and wall.
    pub side_force: Force,
    /// Angle at the joint.
    pub angle: Angle,
    /// Offset from the axis, upwards.
    pub up: Length,
    /// Offset from the axis, to the right looking from entry to exit.
    pub right: Length,
    /// Gap between the middle of the barrel ahead and the wall.
    pub clearance_ahead: Length,
}

/// Pull of a whole string for every head position: the mouth, one a pipe, and the end of the bore.
///
/// `phases` sets of positions are computed, the joints of each set shifted by an even share of a laying length: one is
/// enough for forces; angles and gaps at a short curve depend on where the joints stand in it.
///
/// # Errors
/// [`ChainError::Locked`] and [`ChainError::NotConverged`] with the place.
pub fn pull(setup: &ChainSetup<'_>, phases: u32) -> Result<Pull, ChainError> {
    pull_on(setup, &Joints::new(setup, phases), phases)
}

/// Where joints can stand on the axis, found once for pulls that differ in friction or fluid alone.
#[derive(Debug, Clone)]
pub struct Joints {
    grids: Vec<Grid>,
}

impl Joints {
    /// As many sets of positions as phases, the joints of each set shifted by an even share of a laying length.
    #[must_use]
    pub fn new(setup: &ChainSetup<'_>, phases: u32) -> Self {
        let phases = phases.max(1);
        let shift = |phase: u32| setup.a * f64::from(phase) / f64::from(phases);
        Self { grids: (0..phases).map(|phase| Grid::from_mouth(setup, shift(phase))).collect() }
    }
}

/// As [`pull`], on the first `phases` sets of joint positions that were found before for the same line and string.
///
/// # Errors
/// As [`pull`].
pub fn pull_on(setup: &ChainSetup<'_>, joints: &Joints, phases: u32) -> Result<Pull, ChainError> {
    let mut heads = vec![at_mouth(setup)];
    for (grid, _) in joints.grids.iter().zip(0..phases.max(1)) {
        let mut march = March::new(setup, grid);
        for head in 1..grid.nodes.len() {
            heads.push(march.run(head)?);
        }
    }
    heads.sort_by(|a, b| a.advance.si().total_cmp(&b.advance.si()));
    let reached = heads.last().map_or(0.0, |h| h.advance.si());
    if setup.length - reached > 1e-6 * setup.a {
        heads.push(at_end(setup)?);
    }
    Ok(Pull { heads })
}

/// The head at the mouth: the whole string outside, before the first barrel is in the fluid.
fn at_mouth(setup: &ChainSetup<'_>) -> HeadPosition {
    let (outside, held_back) = setup.outside_pull(0.0);
    let md = Length::from_si(setup.length);
    let force = Force::from_si(outside);
    let none = Extreme { value: Angle::ZERO, md };
    HeadPosition {
        advance: Length::ZERO,
        md,
        force,
        outside: force,
        tension: Extreme { value: force, md },
        angle: none,
        angle_within: none,
        side_force: Extreme { value: Force::ZERO, md },
        clearance: Extreme { value: Length::from_si(setup.bore_radius - setup.barrel_radius), md },
        held_back: Force::from_si(held_back),
        rounds: 0,
    }
}

fn at_end(setup: &ChainSetup<'_>) -> Result<HeadPosition, ChainError> {
    let grid = Grid::behind_head(setup, setup.length);
    March::new(setup, &grid).run(grid.nodes.len() - 1)
}

/// Every joint of the chain with its head at a distance from the pipe-side end.
///
/// # Errors
/// As [`pull`]; [`ChainError::OutOfRange`] for a head outside the bore.
pub fn state_at(
    setup: &ChainSetup<'_>,
    advance: Length,
) -> Result<(HeadPosition, Vec<JointState>), ChainError> {
    let s = advance.si();
    if !(s > 0.0 && s <= setup.length * (1.0 + 1e-12)) {
        return Err(ChainError::OutOfRange {
            quantity: "head position",
            allowed: format!("between 0 and {}", setup.line.length()),
            found: advance.to_string(),
        });
    }
    let grid = Grid::behind_head(setup, s);
    let mut march = March::new(setup, &grid);
    let position = march.run(grid.nodes.len() - 1)?;
    Ok((position, march.states()))
}
