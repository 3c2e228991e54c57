use glam::{DMat2, DVec2, DVec3};
use quantity::{Angle, Force, Length};

use super::balance::{JointLoad, joint_balance};
use super::nodes::Grid;
use super::positions::{Problem, Workspace, solve};
use super::pull::{Extreme, HeadPosition, JointState};
use super::setup::{ChainError, ChainSetup};

/// Largest relative change of a tension between rounds at which the chain counts as settled.
const SETTLED: f64 = 1e-4;
/// Rounds after which a chain that has not settled is an error; two or three are normal.
const MOST_ROUNDS: usize = 60;
/// Distance of a joint from its own minimum, m, above which the positions count as not found.
const WORST_RESIDUAL: f64 = 1e-4;
/// How near a joint must come to its own minimum, m.
const POSITION_TOLERANCE: f64 = 1e-6;

/// One grid of nodes with the state of the chain on it, kept from one head position to the next as a first guess.
pub struct March<'a, 'b> {
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
    pub fn new(setup: &'a ChainSetup<'b>, grid: &'a Grid) -> Self {
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

    pub fn run(&mut self, head: usize) -> Result<HeadPosition, ChainError> {
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

    pub fn states(&self) -> Vec<JointState> {
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
