//! Where joints stand on the bore axis, and the directions across it.

use glam::{DMat2, DVec2, DVec3};
use line::Line;

use super::setup::ChainSetup;

/// One place on the axis at which a joint stands.
#[derive(Debug, Clone, Copy)]
pub(super) struct Node {
    /// Distance along the axis from the pipe side, m.
    pub s: f64,
    /// Point on the axis.
    pub axis: DVec3,
    /// Unit vector along the axis towards the rig side.
    pub tangent: DVec3,
    /// Unit vector across the axis, upwards.
    pub up: DVec3,
    /// Unit vector across the axis, to the right looking from entry to exit.
    pub right: DVec3,
    /// Distance of the joint from the mouth over the laying length, for the last joint in the bore: the share of the
    /// barrel behind it that lies in the bore. Zero for all others.
    pub share_behind: f64,
}

/// What links a node to the next one ahead.
#[derive(Debug, Clone, Copy)]
pub(super) struct Link {
    /// Axis point halfway.
    pub middle: DVec3,
    /// Unit vector along the axis halfway.
    pub middle_tangent: DVec3,
    /// Next node's offset in this node's axes: this ← next.
    pub turn: DMat2,
    /// Chord of the axis, seen across this node.
    pub chord_here: DVec2,
    /// Chord of the axis, seen across the next node.
    pub chord_next: DVec2,
}

/// The nodes of one chain from the tail to the head, with their links.
#[derive(Debug, Clone)]
pub(super) struct Grid {
    pub nodes: Vec<Node>,
    /// One a barrel.
    pub links: Vec<Link>,
    /// From each node, were it the head, to the reamer that swivel and shackle hold on the axis ahead of it; empty
    /// where the head itself is held on the axis.
    pub to_reamer: Vec<(Link, Node)>,
}

fn node(line: &Line, length: f64, s: f64) -> Node {
    let station = line.sample(length - s);
    let tangent = -station.tangent;
    let up = across(tangent);
    Node {
        s,
        axis: station.position,
        tangent,
        up,
        right: station.tangent.cross(up),
        share_behind: 0.0,
    }
}

/// Upward direction across a tangent; any fixed one where the tangent itself is vertical.
fn across(tangent: DVec3) -> DVec3 {
    let vertical = DVec3::Z - tangent * tangent.z;
    vertical.try_normalize().unwrap_or_else(|| tangent.any_orthonormal_vector())
}

/// Distance along the axis at which the straight distance from `from` is `a`, going `direction` (+1 to the rig side).
///
/// Newton on the distance; a bore curved far less than a circle of diameter a makes it monotone.
fn one_barrel_on(line: &Line, length: f64, from: &Node, a: f64, direction: f64) -> Node {
    let mut s = from.s + direction * a;
    let mut next = node(line, length, s);
    for _ in 0..6 {
        let reach = next.axis - from.axis;
        let distance = reach.length();
        let slope = (reach.dot(next.tangent) * direction / distance).max(0.1);
        let step = (a - distance) / slope;
        if step.abs() < 1e-12 * a {
            break;
        }
        s += direction * step;
        next = node(line, length, s);
    }
    next
}

impl Grid {
    /// Joints from the pipe-side end of the bore towards the rig, the last one `first` behind the mouth (0: it has just
    /// been made there; less than a laying length). A chain with its head at node j uses the first j + 1 nodes.
    pub fn from_mouth(setup: &ChainSetup<'_>, first: f64) -> Self {
        let mut start = node(setup.line, setup.length, first);
        start.share_behind = first / setup.a;
        let mut nodes = vec![start];
        while let Some(last) = nodes.last() {
            let next = one_barrel_on(setup.line, setup.length, last, setup.a, 1.0);
            if next.s > setup.length + 1e-9 {
                break;
            }
            nodes.push(next);
        }
        Self::link(setup, nodes)
    }

    /// Joints behind a head that stands anywhere in the bore, as far as they lie in it.
    pub fn behind_head(setup: &ChainSetup<'_>, head: f64) -> Self {
        let mut nodes = vec![node(setup.line, setup.length, head)];
        while let Some(last) = nodes.last() {
            if last.s < setup.a * (1.0 - 1e-9) {
                break;
            }
            let next = one_barrel_on(setup.line, setup.length, last, setup.a, -1.0);
            if next.s < -1e-9 {
                break;
            }
            nodes.push(next);
        }
        nodes.reverse();
        if let Some(first) = nodes.first_mut() {
            first.share_behind = (first.s / setup.a).max(0.0);
        }
        Self::link(setup, nodes)
    }

    fn link(setup: &ChainSetup<'_>, nodes: Vec<Node>) -> Self {
        let links = nodes.windows(2).map(|pair| link(setup, &pair[0], &pair[1])).collect();
        let to_reamer = if setup.head_link > 0.0 {
            let reamer = |n: &Node| {
                let reamer = node(setup.line, setup.length, n.s + setup.head_link);
                (link(setup, n, &reamer), reamer)
            };
            nodes.iter().map(reamer).collect()
        } else {
            Vec::new()
        };
        Self { nodes, links, to_reamer }
    }
}

fn link(setup: &ChainSetup<'_>, here: &Node, next: &Node) -> Link {
    let middle = setup.line.sample(setup.length - 0.5 * (here.s + next.s));
    let chord = next.axis - here.axis;
    let seen = |n: &Node, v: DVec3| DVec2::new(n.up.dot(v), n.right.dot(v));
    Link {
        middle: middle.position,
        middle_tangent: -middle.tangent,
        turn: DMat2::from_cols(seen(here, next.up), seen(here, next.right)),
        chord_here: seen(here, chord),
        chord_next: seen(next, chord),
    }
}

impl Node {
    /// Point of the joint with an offset across the axis.
    pub fn point(&self, offset: DVec2) -> DVec3 {
        self.axis + self.up * offset.x + self.right * offset.y
    }
}
