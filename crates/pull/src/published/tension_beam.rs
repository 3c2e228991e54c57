//! The beam on three supports under tension that stands for a stiff pipe in a bend.

use quantity::{Force, ForcePerLength, Length, unit};

use super::{PublishedError, StiffPipe, range};

/// Below this half slenderness the levers come from their series: the closed forms subtract nearly equal numbers
/// there and would lose two digits for every decade.
const SERIES_BELOW: f64 = 0.1;

/// Levers of a beam of one length, stiffness and tension.
#[derive(Debug, Clone, Copy)]
pub(super) struct Levers {
    length: f64,
    stiffness: f64,
    tension: f64,
    /// Half the length over √(EI/T); infinite without stiffness, zero without tension.
    u: f64,
}

impl Levers {
    /// Inputs in SI; `length` positive, the others not negative.
    pub(super) fn new(length: f64, stiffness: f64, tension: f64) -> Self {
        let u = if stiffness == 0.0 {
            f64::INFINITY
        } else {
            length / 2.0 * (tension / stiffness).sqrt()
        };
        Self { length, stiffness, tension, u }
    }

    /// √(EI/T), where tension and stiffness both exist.
    pub(super) fn stiffness_length(&self) -> Option<f64> {
        (self.tension > 0.0).then(|| (self.stiffness / self.tension).sqrt())
    }

    /// X: mid-deflection by a force at the middle is force · X / T.
    pub(super) fn force_lever(&self) -> f64 {
        self.length / 4.0 * self.force_share()
    }

    /// Y: mid-deflection by a line load is load · Y / T.
    pub(super) fn load_lever(&self) -> f64 {
        self.length * self.length / 8.0 * self.load_share()
    }

    fn force_share(&self) -> f64 {
        if self.u.is_infinite() {
            1.0
        } else if self.u < SERIES_BELOW {
            self.u * self.u * force_series(self.u)
        } else {
            1.0 - self.u.tanh() / self.u
        }
    }

    fn load_share(&self) -> f64 {
        if self.u.is_infinite() {
            1.0
        } else if self.u < SERIES_BELOW {
            self.u * self.u * load_series(self.u)
        } else {
            1.0 - 2.0 * one_minus_sech(self.u) / (self.u * self.u)
        }
    }

    /// Force at the middle that holds it at `deflection` against a line load in the direction of the deflection.
    pub(super) fn holding_force(&self, deflection: f64, load: f64) -> f64 {
        let (l, ei) = (self.length, self.stiffness);
        if self.u < SERIES_BELOW {
            // T = 4·EI·u²/L² cancels u², so that the limit without tension is exact.
            (4.0 * ei * deflection / (l * l) - load * l * l / 8.0 * load_series(self.u))
                / (l / 4.0 * force_series(self.u))
        } else {
            (self.tension * deflection - load * self.load_lever()) / self.force_lever()
        }
    }

    fn midpoint(&self, force: f64, load: f64) -> f64 {
        let (l, ei) = (self.length, self.stiffness);
        if self.u < SERIES_BELOW {
            (force * l / 4.0 * force_series(self.u) + load * l * l / 8.0 * load_series(self.u))
                * (l * l / (4.0 * ei))
        } else {
            (force * self.force_lever() + load * self.load_lever()) / self.tension
        }
    }
}

/// 1 − 1/cosh u without loss of digits for small u and without overflow for large u.
fn one_minus_sech(u: f64) -> f64 {
    if u < 1.0 {
        let s = (u / 2.0).sinh();
        2.0 * s * s / u.cosh()
    } else {
        let e = (-u).exp();
        1.0 - 2.0 * e / (1.0 + e * e)
    }
}

/// (1 − tanh u / u) / u² for small u.
fn force_series(u: f64) -> f64 {
    const TERMS: [f64; 6] = [
        1.0 / 3.0,
        -2.0 / 15.0,
        17.0 / 315.0,
        -62.0 / 2835.0,
        1382.0 / 155_925.0,
        -21_844.0 / 6_081_075.0,
    ];
    power_series(&TERMS, u * u)
}

/// (1 − 2·(1 − sech u) / u²) / u² for small u.
fn load_series(u: f64) -> f64 {
    const TERMS: [f64; 6] = [
        5.0 / 12.0,
        -61.0 / 360.0,
        1385.0 / 20_160.0,
        -50_521.0 / 1_814_400.0,
        2_702_765.0 / 239_500_800.0,
        -199_360_981.0 / 43_589_145_600.0,
    ];
    power_series(&TERMS, u * u)
}

fn power_series(terms: &[f64], x: f64) -> f64 {
    terms.iter().rev().fold(0.0, |sum, term| sum * x + term)
}

/// Deflection at the middle of a simply supported beam under tension.
///
/// ```text
/// y = (N·X + w·Y) / T,   j = √(EI/T),   U = L/j
/// X = L/4 − (j/2)·tanh(U/2)
/// Y = L²/8 − j²·(1 − 1/cosh(U/2))
/// ```
/// | symbol | meaning                           | unit | argument         |
/// |--------|-----------------------------------|------|------------------|
/// | y      | deflection, in the direction of N | m    | returned         |
/// | T      | tension                           | N    | `tension`        |
/// | L      | span                              | m    | `span`           |
/// | EI     | bending stiffness                 | N·m² | from `pipe`      |
/// | N      | force at the middle               | N    | `force`          |
/// | w      | line load, in the direction of N  | N/m  | `load`           |
///
/// Valid for T ≥ 0 with EI > 0, and for EI = 0 with T > 0. Without tension the limits N·L³/48EI and 5·w·L⁴/384EI are
/// returned exactly.
///
/// # Source
/// Beam theory, derived here; the closed form behind the bend of the stiff-pipe method.
/// # Errors
/// [`PublishedError::OutOfRange`].
/// # Checked by
/// the tests of this module: finite differences on 4001 nodes give 0.327257 m for the reference beam.
pub fn tension_beam_midpoint(
    pipe: &StiffPipe,
    span: Length,
    tension: Force,
    force: Force,
    load: ForcePerLength,
) -> Result<Length, PublishedError> {
    let stiffness = pipe.bending_stiffness()?;
    let length = range::positive("span", span.si(), unit::M)?;
    let tension = if stiffness > 0.0 {
        range::not_negative("tension", tension.si(), unit::KN)?
    } else {
        range::positive("tension", tension.si(), unit::KN)?
    };
    let force = range::any("force", force.si(), unit::KN)?;
    let load = range::any("load", load.si(), unit::N_PER_M)?;
    let y = Levers::new(length, stiffness, tension).midpoint(force, load);
    range::result("deflection", y).map(Length::metres)
}

#[cfg(test)]
mod tests {
    use quantity::Pressure;

    use super::*;

    fn steel() -> StiffPipe {
        StiffPipe {
            outside_diameter: Length::millimetres(609.6),
            wall: Length::millimetres(12.7),
            modulus: Pressure::megapascals(207e3),
            net_weight: ForcePerLength::ZERO,
        }
    }

    /// Solves a·x(i−1) + b·x(i) + a·x(i+1) = r(i) with zero ends.
    fn tridiagonal(a: f64, b: f64, mut r: Vec<f64>) -> Vec<f64> {
        let n = r.len();
        let mut c = vec![0.0; n];
        for i in 0..n {
            let m = if i == 0 { b } else { b - a * c[i - 1] };
            c[i] = a / m;
            r[i] = if i == 0 { r[i] / m } else { (r[i] - a * r[i - 1]) / m };
        }
        for i in (0..n - 1).rev() {
            r[i] -= c[i] * r[i + 1];
        }
        r
    }

    /// Mid-deflection of EI·y'''' − T·y'' = q by finite differences, in two second-order steps.
    fn by_differences(l: f64, ei: f64, t: f64, force: f64, load: f64) -> f64 {
        let inner = 3999;
        let dx = l / 4000.0;
        let mut q = vec![load; inner];
        q[inner / 2] += force / dx;
        let curvature = tridiagonal(ei / (dx * dx), -2.0 * ei / (dx * dx) - t, q);
        let y = tridiagonal(1.0 / (dx * dx), -2.0 / (dx * dx), curvature);
        y[inner / 2]
    }

    #[test]
    fn closed_form_agrees_with_finite_differences() {
        let ei = steel().bending_stiffness().unwrap();
        for (l, t, n, w) in [
            (100.0, 3e5, 1e5, -1500.0),
            (100.0, 3e5, 0.0, -1500.0),
            (30.0, 1e3, 5e4, 2000.0),
            (250.0, 2e6, 2e5, 700.0),
        ] {
            let y = tension_beam_midpoint(
                &steel(),
                Length::metres(l),
                Force::newtons(t),
                Force::newtons(n),
                ForcePerLength::newtons_per_metre(w),
            )
            .unwrap()
            .si();
            let fd = by_differences(l, ei, t, n, w);
            assert!((y - fd).abs() < 1e-4 * y.abs(), "{y} against {fd} at {l} m, {t} N");
            if (l, n) == (100.0, 1e5) {
                assert!((y - 0.327_257).abs() < 1e-6, "{y}");
                assert!((fd - 0.327_257).abs() < 1e-5, "{fd}");
            }
        }
    }

    #[test]
    fn levers_are_continuous_where_series_and_closed_form_meet() {
        // Tension that puts the half slenderness on both sides of the switch.
        for share in [0.999_999_9, 1.000_000_1] {
            let u = SERIES_BELOW * share;
            let levers = Levers::new(2.0, 1.0, u * u);
            let shape =
                (levers.force_lever() / levers.tension, levers.load_lever() / levers.tension);
            assert!((shape.0 * 2.0 - force_series(0.1)).abs() < 1e-7, "{shape:?}");
            assert!((shape.1 * 2.0 - load_series(0.1)).abs() < 1e-7, "{shape:?}");
        }
        let series = 0.01 * force_series(0.1);
        approx::assert_relative_eq!(series, 1.0 - 0.1f64.tanh() / 0.1, max_relative = 1e-12);
        let series = 0.01 * load_series(0.1);
        let closed = 1.0 - 2.0 * one_minus_sech(0.1) / 0.01;
        approx::assert_relative_eq!(series, closed, max_relative = 1e-12);
    }

    #[test]
    fn limits_without_tension_and_without_stiffness_are_the_textbook_ones() {
        let ei = steel().bending_stiffness().unwrap();
        let free = |force, load| {
            tension_beam_midpoint(
                &steel(),
                Length::metres(40.0),
                Force::ZERO,
                Force::newtons(force),
                ForcePerLength::newtons_per_metre(load),
            )
            .unwrap()
            .si()
        };
        approx::assert_relative_eq!(free(1e4, 0.0), 1e4 * 40f64.powi(3) / (48.0 * ei));
        approx::assert_relative_eq!(free(0.0, 800.0), 5.0 * 800.0 * 40f64.powi(4) / (384.0 * ei));
        let rope = StiffPipe { modulus: Pressure::ZERO, ..steel() };
        let y = tension_beam_midpoint(
            &rope,
            Length::metres(40.0),
            Force::newtons(1e5),
            Force::newtons(1e4),
            ForcePerLength::newtons_per_metre(800.0),
        );
        approx::assert_relative_eq!(y.unwrap().si(), (1e4 * 10.0 + 800.0 * 200.0) / 1e5);
        let slack = tension_beam_midpoint(
            &rope,
            Length::metres(40.0),
            Force::ZERO,
            Force::ZERO,
            ForcePerLength::ZERO,
        );
        assert_eq!(slack.unwrap_err().quantity(), Some("tension"));
    }

    #[test]
    fn great_slenderness_does_not_overflow() {
        let levers = Levers::new(1e4, 1.0, 1e6);
        assert!(levers.u > 1e6);
        assert!(levers.force_lever().is_finite() && levers.load_lever().is_finite());
        approx::assert_relative_eq!(levers.force_lever(), 2500.0, max_relative = 1e-6);
    }
}
