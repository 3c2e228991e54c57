use glam::{DMat2, DVec2, DVec3};
use quantity::{Angle, Force, Length};

use super::balance::{JointLoad, joint_balance};
use super::nodes::Grid;
use super::positions::{Problem, Workspace, solve};
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

/// Largest relative change of a tension between rounds at which the chain counts as settled.
const SETTLED: f64 = 1e-4;
/// Rounds after which a chain that has not settled is an error; two or three are normal.
const MOST_ROUNDS: usize = 60;
/// Distance of a joint from its own minimum, m, above which the positions count as not found.
const WORST_RESIDUAL: f64 = 1e-4;
/// How near a joint must come to its own minimum, m.
const POSITION_TOLERANCE: f64 = 1e-6;

/// Pull of a whole string for every head position: the mouth, one a pipe, and the end of the bore.
///
/// `phases` sets of positions are computed, the joints of each set shifted by an even share of a laying length: one is
/// enough for forces; angles and gaps at a short curve depend on where the joints stand in it.
///
/// # Errors
/// [`ChainError::Locked`] and [`ChainError::NotConverged`] with the place.
pub fn pull(setup: &ChainSetup<'_>, phases: u32) -> Result<Pull, ChainError> {
    let phases = phases.max(1);
    let mut heads = vec![at_mouth(setup)];
    for phase in 0..phases {
        let grid = Grid::from_mouth(setup, setup.a * f64::from(phase) / f64::from(phases));
        let mut march = March::new(setup, &grid);
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

/// One grid of nodes with the state of the chain on it, kept from one head position to the next as a first guess.
struct March<'a, 'b> {
    setup: &'a ChainSetup<'b>,
    grid: &'a Grid,
    turn: Vec<DMat2>,
    chord_here: Vec<DVec2>,
    chord_next: Vec<DVec2>,
    /// One more entry than nodes: the reamer stands after the head.
    offsets: Vec<DVec2>,
    /// Tension of the barrel ahead of each node, N.
    tension: Vec<f64>,
    stiffness: Vec<f64>,
    play: Vec<f64>,
    lumps: Vec<f64>,
    weight_up: Vec<f64>,
    side: Vec<f64>,
    angle: Vec<f64>,
    points: Vec<DVec3>,
    workspace: Workspace,
    head: usize,
}

impl<'a, 'b> March<'a, 'b> {
    fn new(setup: &'a ChainSetup<'b>, grid: &'a Grid) -> Self {
        let n = grid.nodes.len();
        Self {
            setup,
            grid,
            turn: vec![DMat2::IDENTITY; n],
            chord_here: vec![DVec2::ZERO; n],
            chord_next: vec![DVec2::ZERO; n],
            offsets: vec![DVec2::ZERO; n + 1],
            tension: vec![f64::NAN; n],
            stiffness: vec![0.0; n],
            play: vec![setup.play; n + 1],
            lumps: vec![0.0; n],
            weight_up: vec![0.0; n + 1],
            side: vec![0.0; n],
            angle: vec![0.0; n],
            points: vec![DVec3::ZERO; n],
            workspace: Workspace::default(),
            head: 0,
        }
    }

    /// Lays out the chain with its head at a node: links, play, and each node's share of weight and drag.
    ///
    /// Each barrel rests on its two joints. Only the part that lies in the bore counts; a barrel that still sticks out
    /// rests with that part on the joint inside.
    fn lay_out(&mut self, head: usize) {
        let nodes = &self.grid.nodes;
        for (i, link) in self.grid.links[..head].iter().enumerate() {
            self.turn[i] = link.turn;
            self.chord_here[i] = link.chord_here;
            self.chord_next[i] = link.chord_next;
        }
        for (i, node) in nodes[..=head].iter().enumerate() {
            let ahead = if i == head { 0.0 } else { 0.5 };
            let behind = if i == 0 { node.share_behind } else { 0.5 };
            self.lumps[i] = ahead + behind;
            self.weight_up[i] = self.setup.weight * self.lumps[i] * node.up.z;
            self.play[i] = self.setup.play;
        }
        self.weight_up[head + 1] = 0.0;
        self.play[head + 1] = 0.0;
        self.offsets[head + 1] = DVec2::ZERO;
        if let Some((link, _)) = self.grid.to_reamer.get(head) {
            self.turn[head] = link.turn;
            self.chord_here[head] = link.chord_here;
            self.chord_next[head] = link.chord_next;
        } else {
            self.play[head] = 0.0;
            self.offsets[head] = DVec2::ZERO;
        }
    }

    fn run(&mut self, head: usize) -> Result<HeadPosition, ChainError> {
        self.head = head;
        self.lay_out(head);
        let advance = self.grid.nodes[head].s;
        let (outside, run_on) = self.setup.outside_pull(advance);
        for (i, node) in self.grid.nodes[..=head].iter().enumerate() {
            self.points[i] = node.point(self.offsets[i]);
        }
        if self.tension[..=head].iter().any(|t| t.is_nan()) {
            // First guess: every joint where it was or on the axis, and in contact.
            self.balance(head, outside, true)?;
        }
        // Barrels, and the link to the reamer where there is one.
        let linked = self.setup.head_link > 0.0;
        let links = if linked { head + 1 } else { head };
        let mut round = 0;
        loop {
            round += 1;
            // The energy's quadratic form is exact at the true lengths: the gradient is the tension along the barrel.
            for i in 0..links {
                let (end, length) = if i < head {
                    (self.points[i + 1], self.setup.a)
                } else {
                    let reamer = self.grid.to_reamer.get(head).map(|(_, r)| r.axis);
                    (reamer.unwrap_or(self.points[i]), self.setup.head_link)
                };
                let true_length = (end - self.points[i]).length();
                let length = if true_length > 0.5 * length { true_length } else { length };
                self.stiffness[i] = self.tension[i].max(0.0) / length;
            }
            let problem = Problem {
                stiffness: &self.stiffness[..links],
                turn: &self.turn[..links],
                chord_here: &self.chord_here[..links],
                chord_next: &self.chord_next[..links],
                weight: &self.weight_up[..=links],
                play: &self.play[..=links],
            };
            let offsets = &mut self.offsets[..=links];
            let outcome = solve(&problem, offsets, POSITION_TOLERANCE, &mut self.workspace);
            if outcome.residual > WORST_RESIDUAL {
                let head = Length::from_si(advance);
                return Err(ChainError::NotConverged {
                    head,
                    change: outcome.residual,
                    rounds: round,
                });
            }
            let (change, held_back) = self.balance(head, outside, false)?;
            if change < SETTLED {
                return Ok(self.summary(outside, held_back.max(run_on), round));
            }
            if round == MOST_ROUNDS {
                let head = Length::from_si(advance);
                return Err(ChainError::NotConverged { head, change, rounds: round });
            }
        }
    }

    /// Marches the tension from the tail to the head; returns the largest relative change and the force that had to be
    /// taken off where the string would run ahead.
    fn balance(
        &mut self,
        head: usize,
        outside: f64,
        all_touch: bool,
    ) -> Result<(f64, f64), ChainError> {
        let nodes = &self.grid.nodes[..=head];
        for (i, node) in nodes.iter().enumerate() {
            self.points[i] = node.point(self.offsets[i]);
        }
        let mut tension = outside;
        let mut behind = nodes[0].tangent;
        // What the tension would be if the string could be pushed, and the lowest that gets: what must hold it back.
        let (mut unclipped, mut lowest) = (outside, 0.0f64);
        let mut change: f64 = 0.0;
        let scale = self.tension[..=head].iter().fold(1.0, |m: f64, t| m.max(t.abs()));
        for (i, node) in nodes.iter().enumerate() {
            let ahead = if i < head {
                self.points[i + 1] - self.points[i]
            } else {
                self.grid.to_reamer.get(i).map_or(node.tangent, |(_, r)| r.axis - self.points[i])
            };
            let ahead = ahead.normalize_or(node.tangent);
            let play = self.setup.play;
            let touches = all_touch
                || self.play[i] <= 0.0
                || self.offsets[i].length_squared() >= play * play * (1.0 - 1e-6);
            let along = if self.play[i] > 0.0 {
                node.tangent
            } else {
                (behind + ahead).normalize_or(node.tangent)
            };
            let load = JointLoad {
                behind,
                ahead,
                along,
                tension_behind: tension,
                weight: self.setup.weight * self.lumps[i],
                drag: self.setup.drag * self.lumps[i],
                friction: if touches { self.setup.friction } else { 0.0 },
            };
            let balance = joint_balance(&load).ok_or(ChainError::Locked {
                friction: self.setup.friction,
                angle: Angle::from_si(behind.angle_between(ahead)),
            })?;
            self.side[i] = if touches { balance.side_force } else { 0.0 };
            self.angle[i] = balance.angle;
            unclipped += balance.tension_ahead - tension;
            lowest = lowest.min(unclipped);
            tension = balance.tension_ahead.max(0.0);
            let moved = (tension - self.tension[i]).abs() / scale;
            change = if moved.is_nan() { f64::INFINITY } else { change.max(moved) };
            self.tension[i] = tension;
            behind = ahead;
        }
        Ok((change, -lowest))
    }

    fn md(&self, s: f64) -> Length {
        Length::from_si(self.setup.length - s)
    }

    fn clearance(&self, i: usize) -> f64 {
        let link = &self.grid.links[i];
        let middle = 0.5 * (self.points[i] + self.points[i + 1]) - link.middle;
        let across = middle - link.middle_tangent * middle.dot(link.middle_tangent);
        self.setup.bore_radius - self.setup.barrel_radius - across.length()
    }

    fn summary(&self, outside: f64, held_back: f64, rounds: usize) -> HeadPosition {
        let nodes = &self.grid.nodes[..=self.head];
        let greatest = |values: &[f64]| {
            values.iter().zip(nodes).fold((0.0, nodes[0].s), |best, (v, node)| {
                if *v > best.0 { (*v, node.s) } else { best }
            })
        };
        let (tension, tension_s) = greatest(&self.tension);
        // The last angle is taken by the swivel, not by a joint.
        let (angle, angle_s) = greatest(&self.angle[..self.head]);
        let within = if self.head > 2 { 1..self.head - 1 } else { 0..self.head };
        let (angle_within, within_s) = within
            .map(|i| (self.angle[i], nodes[i].s))
            .fold((0.0, 0.0), |best, next| if next.0 > best.0 { next } else { best });
        let (side, side_s) = greatest(&self.side);
        let (clearance, clearance_s) = (0..self.head)
            .map(|i| (self.clearance(i), 0.5 * (nodes[i].s + nodes[i + 1].s)))
            .fold((f64::INFINITY, 0.0), |best, c| if c.0 < best.0 { c } else { best });
        let clearance = if clearance.is_finite() {
            clearance
        } else {
            self.setup.bore_radius - self.setup.barrel_radius
        };
        let advance = nodes[self.head].s;
        HeadPosition {
            advance: Length::from_si(advance),
            md: self.md(advance),
            force: Force::from_si(self.tension[self.head]),
            outside: Force::from_si(outside),
            tension: Extreme { value: Force::from_si(tension), md: self.md(tension_s) },
            angle: Extreme { value: Angle::from_si(angle), md: self.md(angle_s) },
            angle_within: Extreme { value: Angle::from_si(angle_within), md: self.md(within_s) },
            side_force: Extreme { value: Force::from_si(side), md: self.md(side_s) },
            clearance: Extreme { value: Length::from_si(clearance), md: self.md(clearance_s) },
            held_back: Force::from_si(held_back),
            rounds,
        }
    }

    fn states(&self) -> Vec<JointState> {
        let nodes = &self.grid.nodes[..=self.head];
        nodes
            .iter()
            .enumerate()
            .map(|(i, node)| JointState {
                md: self.md(node.s),
                tension_behind: Force::from_si(if i == 0 {
                    self.setup.outside_pull(nodes[self.head].s).0
                } else {
                    self.tension[i - 1]
                }),
                tension_ahead: Force::from_si(self.tension[i]),
                side_force: Force::from_si(self.side[i]),
                angle: Angle::from_si(self.angle[i]),
                up: Length::from_si(self.offsets[i].x),
                right: Length::from_si(self.offsets[i].y),
                clearance_ahead: Length::from_si(if i < self.head {
                    self.clearance(i)
                } else {
                    self.setup.bore_radius - self.setup.barrel_radius
                }),
            })
            .collect()
    }
}
