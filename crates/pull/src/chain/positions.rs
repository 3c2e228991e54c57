//! Where the joints of a taut chain ride in the bore.
//!
//! For given tensions T the chain takes the position of least energy:
//!
//! ```text
//! minimise  Σ_i T_i/(2a) · |p_{i+1} − p_i|²  +  Σ_i W_i · z(p_i)      subject to |u_i| ≤ g
//! p_i = C_i + u_i,  u_i across the axis at C_i
//! ```
//! Convex, one disc a joint. Block Gauss–Seidel with projection always converges, since each block's Hessian is a multiple
//! of the identity, so that the constrained minimiser of a block is the projection of the free one on the disc. It is
//! slow on long free stretches; there a Newton step on the current contacts (block-tridiagonal, two unknowns a joint)
//! is tried and kept only when it lowers the residual.

use glam::{DMat2, DVec2};

/// The problem of one chain: one entry a joint from the tail to the head, one a barrel between.
#[derive(Debug, Clone, Copy)]
pub struct Problem<'a> {
    /// Tension over laying length of each barrel, N/m.
    pub stiffness: &'a [f64],
    /// Next joint's offset in this joint's axes, one a barrel.
    pub turn: &'a [DMat2],
    /// Chord of the axis across the joint behind each barrel, m.
    pub chord_here: &'a [DVec2],
    /// Chord of the axis across the joint ahead of each barrel, m.
    pub chord_next: &'a [DVec2],
    /// Weight at each joint along its upward axis, N; positive pulls down.
    pub weight: &'a [f64],
    /// Radius in which each joint may move, m; zero holds it on the axis.
    pub play: &'a [f64],
}

/// What the solver did.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outcome {
    /// Largest distance by which a joint still differs from its own minimum, m.
    pub residual: f64,
    /// Gauss–Seidel sweeps made.
    pub sweeps: usize,
    /// Newton steps kept.
    pub newton_steps: usize,
}

/// Working space that is kept between head positions.
#[derive(Debug, Default)]
pub struct Workspace {
    trial: Vec<DVec2>,
    right_side: Vec<DVec2>,
    upper: Vec<DMat2>,
}

/// Sweeps after which the solver gives up; the residual then says how far it came.
const MOST_SWEEPS: usize = 20_000;

/// Solves for the offsets, starting from the ones given.
///
/// # Tolerance
/// Stops when no joint would move by more than `tolerance` (m) in its own minimum. 1e-7 m changes a joint angle of a
/// 6 m pipe by 3e-8 rad.
pub fn solve(
    problem: &Problem<'_>,
    offsets: &mut [DVec2],
    tolerance: f64,
    workspace: &mut Workspace,
) -> Outcome {
    let mut newton_steps = 0;
    let mut sweeps = 0;
    let mut moved = problem.sweep(offsets);
    loop {
        sweeps += 1;
        if moved <= tolerance || sweeps >= MOST_SWEEPS {
            return Outcome { residual: problem.residual(offsets), sweeps, newton_steps };
        }
        if sweeps.is_multiple_of(2) {
            let before = problem.residual(offsets);
            workspace.trial.clear();
            workspace.trial.extend_from_slice(offsets);
            let mut trial = std::mem::take(&mut workspace.trial);
            problem.newton(&mut trial, workspace);
            if problem.residual(&trial) < before
                && problem.energy(&trial) <= problem.energy(offsets)
            {
                offsets.copy_from_slice(&trial);
                newton_steps += 1;
            }
            workspace.trial = trial;
        }
        moved = problem.sweep(offsets);
    }
}

impl Problem<'_> {
    /// Diagonal of a joint's block and the force on it for an offset of zero, neighbours where they are.
    #[inline]
    fn block(&self, i: usize, offsets: &[DVec2]) -> (f64, DVec2) {
        let mut diagonal = 0.0;
        let mut pull = DVec2::new(-self.weight[i], 0.0);
        if i < self.stiffness.len() {
            let k = self.stiffness[i];
            diagonal += k;
            pull += k * (self.chord_here[i] + self.turn[i] * offsets[i + 1]);
        }
        if i > 0 {
            let k = self.stiffness[i - 1];
            diagonal += k;
            pull += k * (self.turn[i - 1].transpose() * offsets[i - 1] - self.chord_next[i - 1]);
        }
        (diagonal, pull)
    }

    /// The joint's own minimum on its disc, neighbours where they are.
    #[inline]
    fn minimum(&self, i: usize, offsets: &[DVec2]) -> DVec2 {
        let play = self.play[i];
        if play <= 0.0 {
            return DVec2::ZERO;
        }
        let (diagonal, pull) = self.block(i, offsets);
        let size = pull.length();
        if size <= diagonal * play {
            if diagonal > 0.0 { pull / diagonal } else { offsets[i] }
        } else {
            pull * (play / size)
        }
    }

    fn sweep(&self, offsets: &mut [DVec2]) -> f64 {
        let mut moved: f64 = 0.0;
        for i in (0..offsets.len()).rev() {
            let next = self.minimum(i, offsets);
            moved = moved.max((next - offsets[i]).length_squared());
            offsets[i] = next;
        }
        moved.sqrt()
    }

    /// Largest distance of a joint from its own minimum.
    #[must_use]
    pub fn residual(&self, offsets: &[DVec2]) -> f64 {
        (0..offsets.len())
            .map(|i| (self.minimum(i, offsets) - offsets[i]).length_squared())
            .fold(0.0, f64::max)
            .sqrt()
    }

    /// Energy of the chain, N·m, up to a constant.
    #[must_use]
    pub fn energy(&self, offsets: &[DVec2]) -> f64 {
        let mut energy = 0.0;
        for (i, &k) in self.stiffness.iter().enumerate() {
            let (here, next) = (offsets[i], offsets[i + 1]);
            let turned = self.turn[i] * next;
            energy += 0.5 * k * (here.length_squared() + next.length_squared());
            energy -= k * (here.dot(turned) + here.dot(self.chord_here[i]));
            energy += k * next.dot(self.chord_next[i]);
        }
        energy + self.weight.iter().zip(offsets).map(|(w, u)| w * u.x).sum::<f64>()
    }

    /// One Newton step on the contacts as they are: free joints move in the plane, joints at the wall along it.
    fn newton(&self, offsets: &mut [DVec2], workspace: &mut Workspace) {
        let n = offsets.len();
        workspace.right_side.clear();
        workspace.upper.clear();
        // Forward elimination of the block-tridiagonal system; a held direction becomes an identity row.
        for i in 0..n {
            let (mut diagonal, mut force, along) = self.reduced(i, offsets);
            let mut upper = if i + 1 < n {
                -self.stiffness[i] * (along * self.turn[i] * self.reduced_axes(i + 1, offsets))
            } else {
                DMat2::ZERO
            };
            if i > 0 {
                let here = self.reduced_axes(i, offsets);
                let behind = self.reduced_axes(i - 1, offsets);
                let lower = -self.stiffness[i - 1] * (here * self.turn[i - 1].transpose() * behind);
                diagonal -= lower * workspace.upper[i - 1];
                force -= lower * workspace.right_side[i - 1];
            }
            let determinant = diagonal.determinant();
            if determinant.abs() < f64::MIN_POSITIVE {
                return;
            }
            let inverse = diagonal.inverse();
            upper = inverse * upper;
            workspace.upper.push(upper);
            workspace.right_side.push(inverse * force);
        }
        for i in (0..n.saturating_sub(1)).rev() {
            let step = workspace.right_side[i + 1];
            workspace.right_side[i] -= workspace.upper[i] * step;
        }
        for (i, offset) in offsets.iter_mut().enumerate() {
            let play = self.play[i];
            if play <= 0.0 {
                continue;
            }
            let moved = *offset + workspace.right_side[i];
            let size = moved.length();
            *offset = if self.touches(i, *offset) && size > 0.0 || size > play {
                moved * (play / size.max(f64::MIN_POSITIVE))
            } else {
                moved
            };
        }
    }

    /// Whether a joint lies at the wall.
    #[must_use]
    pub fn touches(&self, i: usize, offset: DVec2) -> bool {
        offset.length_squared() >= self.play[i] * self.play[i] * (1.0 - 1e-9)
    }

    /// Projector on the directions in which a joint may move.
    fn reduced_axes(&self, i: usize, offsets: &[DVec2]) -> DMat2 {
        if self.play[i] <= 0.0 {
            return DMat2::ZERO;
        }
        let (_, presses) = self.press(i, offsets);
        if presses > 0.0 {
            let along = offsets[i].perp() / self.play[i];
            return DMat2::from_cols(along * along.x, along * along.y);
        }
        DMat2::IDENTITY
    }

    /// Force on a joint where it is, and how hard it presses on the wall per metre of play (0 when it is free).
    fn press(&self, i: usize, offsets: &[DVec2]) -> (DVec2, f64) {
        let (diagonal, pull) = self.block(i, offsets);
        let force = pull - diagonal * offsets[i];
        let play = self.play[i];
        let outward = force.dot(offsets[i]) / (play * play);
        (force, if self.touches(i, offsets[i]) { outward.max(0.0) } else { 0.0 })
    }

    /// Block, force and projector of one joint in the directions it may move; identity in the held ones.
    fn reduced(&self, i: usize, offsets: &[DVec2]) -> (DMat2, DVec2, DMat2) {
        if self.play[i] <= 0.0 {
            return (DMat2::IDENTITY, DVec2::ZERO, DMat2::ZERO);
        }
        let (diagonal, _) = self.block(i, offsets);
        let (force, presses) = self.press(i, offsets);
        let axes = self.reduced_axes(i, offsets);
        let held = DMat2::IDENTITY - axes;
        (axes * (diagonal + presses) + held, axes * force, axes)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// A straight chain with given tensions over length, weights and play.
    fn straight(k: &[f64], w: &[f64], play: f64) -> (Vec<DVec2>, Outcome) {
        let n = w.len();
        let mut g = vec![play; n];
        (g[0], g[n - 1]) = (0.0, 0.0);
        let zero = vec![DVec2::ZERO; n - 1];
        let turn = vec![DMat2::IDENTITY; n - 1];
        let problem = Problem {
            stiffness: k,
            turn: &turn,
            chord_here: &zero,
            chord_next: &zero,
            weight: w,
            play: &g,
        };
        let mut u = vec![DVec2::ZERO; n];
        let outcome = solve(&problem, &mut u, 1e-9, &mut Workspace::default());
        (u, outcome)
    }

    #[test]
    fn a_free_chain_hangs_as_a_funicular_polygon() {
        let n = 21;
        let (u, outcome) = straight(&vec![100.0; n - 1], &vec![2.0; n], 100.0);
        // exact: u_i = −W/(2k) · i (n − 1 − i)
        for (i, offset) in u.iter().enumerate() {
            #[expect(clippy::cast_precision_loss, reason = "a few joints")]
            let exact = -2.0 / 200.0 * (i * (n - 1 - i)) as f64;
            assert!((offset.x - exact).abs() < 1e-7, "joint {i}: {} against {exact}", offset.x);
        }
        assert!(outcome.newton_steps >= 1 && outcome.sweeps < 20, "{outcome:?}");
    }

    #[test]
    fn a_heavy_chain_lies_on_the_invert_between_two_free_ends() {
        let n = 31;
        let (u, outcome) = straight(&vec![100.0; n - 1], &vec![2.0; n], 0.1);
        let middle = u[n / 2];
        assert!((middle.x + 0.1).abs() < 1e-12 && middle.y == 0.0, "{middle}");
        assert!(outcome.residual < 1e-9);
    }

    proptest! {
        #[test]
        fn the_answer_meets_the_conditions_of_least_energy(
            k in proptest::collection::vec(0.0f64..5e4, 12),
            w in proptest::collection::vec(-1e4f64..1e4, 13),
            play in 0.0f64..0.4,
            bend in -0.4f64..0.4,
            start in proptest::collection::vec(-1.0f64..1.0, 26),
        ) {
            let n = w.len();
            let mut g = vec![play; n];
            (g[0], g[n - 1]) = (0.0, 0.0);
            let chord_here = vec![DVec2::new(bend, 0.3 * bend); n - 1];
            let chord_next = vec![DVec2::new(-bend, -0.3 * bend); n - 1];
            let turn = vec![DMat2::from_angle(0.01); n - 1];
            let problem = Problem {
                stiffness: &k, turn: &turn, chord_here: &chord_here, chord_next: &chord_next, weight: &w, play: &g,
            };
            let mut u = vec![DVec2::ZERO; n];
            let outcome = solve(&problem, &mut u, 1e-8, &mut Workspace::default());
            prop_assert!(outcome.residual <= 1e-7, "{outcome:?}");
            // No other admissible position has less energy.
            let other: Vec<_> = (0..n).map(|i| {
                let v = DVec2::new(start[2 * i], start[2 * i + 1]);
                v.clamp_length_max(1.0) * g[i]
            }).collect();
            let (best, trial) = (problem.energy(&u), problem.energy(&other));
            prop_assert!(best <= trial + 1e-6 * (1.0 + trial.abs()), "{best} against {trial}");
        }
    }
}
