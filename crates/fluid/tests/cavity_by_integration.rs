//! The closed forms of the limit pressure against numerical integration of the equilibrium.

use fluid::{Cavity, UndrainedCavity};
use quantity::{Angle, Length, Pressure};

/// Effective pressure in the bore whose plastic zone ends at `rp`, by integrating
/// `dσ_r/dr = −(σ_r − σ_θ)/r` with Mohr and Coulomb's criterion inward to the wall (RK4). The wall
/// stands where the plastic zone has kept its volume exactly: `R_g² = R₀² + 2 R_p u − u²`.
fn integrated(cavity: &Cavity, rp: f64) -> f64 {
    let (sin, cos) = cavity.friction_angle.si().sin_cos();
    let (sigma, c, g) =
        (cavity.effective_stress.si(), cavity.cohesion.si(), cavity.shear_modulus.si());
    let yielding = sigma * (1.0 + sin) + c * cos;
    // Elastic ground outside: displacement of its inner edge.
    let u = (yielding - sigma) * rp / (2.0 * g);
    let r0 = cavity.bore_radius.si();
    let wall = (r0 * r0 + 2.0 * rp * u - u * u).sqrt();
    let slope = |r: f64, radial: f64| {
        let hoop = (radial * (1.0 - sin) - 2.0 * c * cos) / (1.0 + sin);
        -(radial - hoop) / r
    };
    let steps = 20_000;
    let h = (wall - rp) / f64::from(steps);
    let (mut r, mut s) = (rp, yielding);
    for _ in 0..steps {
        let k1 = slope(r, s);
        let k2 = slope(r + h / 2.0, s + h / 2.0 * k1);
        let k3 = slope(r + h / 2.0, s + h / 2.0 * k2);
        let k4 = slope(r + h, s + h * k3);
        s += h / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
        r += h;
    }
    s
}

fn cavity(sigma: f64, phi: f64, c: f64, g: f64, r0: f64) -> Cavity {
    Cavity {
        effective_stress: Pressure::kilopascals(sigma),
        friction_angle: Angle::degrees(phi),
        cohesion: Pressure::kilopascals(c),
        shear_modulus: Pressure::kilopascals(g),
        bore_radius: Length::metres(r0),
    }
}

#[test]
fn drained_limit_agrees_with_integration_to_a_thousandth() {
    // The first three are held against values that were integrated outside this program.
    let rows = [
        (cavity(60.0, 32.0, 0.0, 5000.0, 0.0825), 4.0, Some(517.78)),
        (cavity(90.0, 36.0, 0.0, 12_000.0, 0.15), 5.33, Some(1001.59)),
        (cavity(60.0, 32.0, 0.0, 5000.0, 0.3), 4.0, Some(425.07)),
        (cavity(60.0, 32.0, 10.0, 5000.0, 0.15), 2.0, None),
        (cavity(150.0, 25.0, 25.0, 8000.0, 0.3), 6.0, None),
        (cavity(40.0, 20.0, 20.0, 3000.0, 0.1), 0.5, None),
        (cavity(0.0, 25.0, 20.0, 3000.0, 0.1), 0.5, None),
    ];
    for (bore, rp, outside) in rows {
        let numerical = integrated(&bore, rp);
        let closed = bore.pressure(Length::metres(rp)).unwrap().si();
        let difference = closed / numerical - 1.0;
        assert!(difference.abs() < 1.2e-3, "{bore:?}: {closed} against {numerical}");
        assert!(difference < 0.0, "the dropped term makes the formula the lower one: {difference}");
        if let Some(kpa) = outside {
            assert!((numerical / 1e3 - kpa).abs() < 0.005, "{numerical} against {kpa} kPa");
        }
    }
}

#[test]
fn undrained_limit_agrees_with_integration_and_is_the_limit_without_friction() {
    for (su, sigma, g, r0, rp) in [(25.0, 150.0, 2500.0, 0.15, 4.0), (15.0, 80.0, 1000.0, 0.3, 2.0)]
    {
        let clay = UndrainedCavity {
            total_stress: Pressure::kilopascals(sigma),
            undrained_strength: Pressure::kilopascals(su),
            shear_modulus: Pressure::kilopascals(g),
            bore_radius: Length::metres(r0),
        };
        let rp = Length::metres(rp);
        let limit = clay.pressure(rp).unwrap().si();
        let numerical = integrated(&cavity(sigma, 0.0, su, g, r0), rp.si());
        assert!((limit / numerical - 1.0).abs() < 1.2e-3, "{limit} against {numerical}");
        let mut last = f64::INFINITY;
        for phi in [1.0, 0.1, 0.01, 1e-4, 1e-8, 0.0] {
            let drained = cavity(sigma, phi, su, g, r0);
            let difference = (drained.pressure(rp).unwrap().si() / limit - 1.0).abs();
            assert!(difference <= last, "{phi}: {difference}");
            assert!(difference < 0.06 * phi + 1e-12, "{phi}: {difference}");
            let unlimited = drained.unlimited().unwrap() / clay.unlimited().unwrap() - 1.0;
            assert!(unlimited.abs() < 0.06 * phi + 1e-12, "{phi}: {unlimited}");
            let yields = drained.first_yield().unwrap() / clay.first_yield().unwrap() - 1.0;
            assert!(yields.abs() < 0.06 * phi + 1e-12, "{phi}: {yields}");
            last = difference;
        }
    }
}
