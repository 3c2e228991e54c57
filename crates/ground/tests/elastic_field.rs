//! The field around a growing cylinder in a half-space solves the equations of elasticity.
//!
//! Equilibrium inside, no stress on the surface, the volume leaving the axis, and nothing far away:
//! only one field has all of that. Derivatives are central differences of fourth order.

use std::f64::consts::{PI, TAU};

use ground::{buried_displacement, greatest_surface_slope, surface_heave};
use proptest::prelude::*;
use quantity::Length;

const V: f64 = 0.0354;
const RATIOS: [f64; 3] = [0.2, 0.35, 0.49];

fn m(x: f64) -> Length {
    Length::from_si(x)
}

/// Displacements along x and z (downwards).
fn field(h: f64, x: f64, z: f64, nu: f64) -> [f64; 2] {
    let (up, outwards) =
        buried_displacement(V, m(h), m(x), m(z), nu).unwrap_or_else(|e| panic!("{e} at {x}, {z}"));
    [outwards.si() * x.signum(), -up.si()]
}

/// Fourth-order first derivative of `f` around zero.
fn slope(d: f64, f: impl Fn(f64) -> f64) -> f64 {
    (8.0 * (f(d) - f(-d)) - f(2.0 * d) + f(-2.0 * d)) / (12.0 * d)
}

/// Fourth-order second derivative of `f` around zero.
fn bend(d: f64, f: impl Fn(f64) -> f64) -> f64 {
    (16.0 * (f(d) + f(-d)) - f(2.0 * d) - f(-2.0 * d) - 30.0 * f(0.0)) / (12.0 * d * d)
}

proptest! {
    #[test]
    fn the_field_is_in_equilibrium(
        x in prop_oneof![-6f64..-0.5, 0.5f64..6.0], z in 0.2f64..6.0, which in 0usize..3,
    ) {
        let (h, nu, d) = (1.5, RATIOS[which], 0.01);
        let at = |i: usize, dx: f64, dz: f64| field(h, x + dx, z + dz, nu)[i];
        let [xx, zz] = [0, 1].map(|i| [bend(d, |t| at(i, t, 0.0)), bend(d, |t| at(i, 0.0, t))]);
        let mixed = |i: usize| slope(d, |t| slope(d, |s| at(i, t, s)));
        // Navier: (1 − 2ν) ∇²u + grad div u = 0.
        let k = 1.0 - 2.0 * nu;
        let along_x = k * (xx[0] + xx[1]) + xx[0] + mixed(1);
        let along_z = k * (zz[0] + zz[1]) + zz[1] + mixed(0);
        let size = xx[0].abs() + xx[1].abs() + zz[0].abs() + zz[1].abs();
        prop_assert!(along_x.abs() < 1e-5 * size, "{along_x} of {size}");
        prop_assert!(along_z.abs() < 1e-5 * size, "{along_z} of {size}");
    }

    #[test]
    fn the_surface_is_free_of_stress(
        h in 0.5f64..10.0, t in prop_oneof![-4f64..-0.05, 0.05f64..4.0], which in 0usize..3,
    ) {
        let (nu, x, d) = (RATIOS[which], t * h, 0.002 * h);
        // Only depths from zero downwards exist: one-sided differences of fourth order.
        let down = |i: usize| {
            let f = |n: f64| field(h, x, n * d, nu)[i];
            (-25.0 * f(0.0) + 48.0 * f(1.0) - 36.0 * f(2.0) + 16.0 * f(3.0) - 3.0 * f(4.0))
                / (12.0 * d)
        };
        let across = |i: usize| slope(d, |s| field(h, x + s, 0.0, nu)[i]);
        let size = across(0).abs() + across(1).abs() + down(0).abs() + down(1).abs();
        // Stresses over the shear modulus; the upright one times (1 − 2ν)/2.
        let shear = down(0) + across(1);
        let upright = (1.0 - nu) * down(1) + nu * across(0);
        prop_assert!(shear.abs() < 1e-6 * size, "shear {shear} of {size}");
        prop_assert!(upright.abs() < 1e-6 * size, "upright {upright} of {size}");
    }

    #[test]
    fn the_field_at_the_surface_is_the_heave_of_the_surface(
        h in 0.2f64..20.0, x in -30f64..30.0, nu in 0f64..=0.5,
    ) {
        let (up, side) = surface_heave(V, m(h), m(x), nu).unwrap();
        let (up_in, side_in) = buried_displacement(V, m(h), m(x), m(0.0), nu).unwrap();
        prop_assert!((up.si() - up_in.si()).abs() < 1e-12 * up.si());
        prop_assert!((side.si() - side_in.si()).abs() <= 1e-12 * up.si().max(side.si()));
    }

    #[test]
    fn the_volume_leaves_the_axis(h in 0.5f64..10.0, nu in 0f64..=0.5) {
        // Through a circle that is small beside the depth, but larger than the cylinder.
        let (v, r) = (1e-9, 1e-3);
        let n = 64;
        let flux: f64 = (0..n)
            .map(|i| {
                let (sin, cos) = (TAU * (f64::from(i) + 0.5) / f64::from(n)).sin_cos();
                let at = (m(r * cos), m(h + r * sin));
                let (up, side) = buried_displacement(v, m(h), at.0, at.1, nu).unwrap();
                (side.si() * cos.abs() - up.si() * sin) * TAU * r / f64::from(n)
            })
            .sum();
        prop_assert!((flux / v - 1.0).abs() < 1e-4, "{}", flux / v);
    }

    #[test]
    fn ground_that_keeps_its_volume_does(
        h in 0.5f64..5.0, x in 0.3f64..5.0, z in 0.1f64..10.0,
    ) {
        prop_assume!((x * x + (z - h) * (z - h)).sqrt() > 0.25);
        let d = 1e-3;
        let stretch_x = slope(d, |s| field(h, x + s, z, 0.5)[0]);
        let stretch_z = slope(d, |s| field(h, x, z + s, 0.5)[1]);
        prop_assert!((stretch_x + stretch_z).abs() < 1e-6 * (stretch_x.abs() + stretch_z.abs()));
    }

    #[test]
    fn the_surface_rises_by_the_volume_times_its_stretch(h in 0.5f64..10.0, nu in 0f64..=0.5) {
        // x = h tan t maps the whole surface to a finite range.
        let n = 200;
        let area: f64 = (0..n)
            .map(|i| {
                let t = PI * ((f64::from(i) + 0.5) / f64::from(n) - 0.5);
                let (up, _) = surface_heave(V, m(h), m(h * t.tan()), nu).unwrap();
                up.si() * h / t.cos().powi(2) * PI / f64::from(n)
            })
            .sum();
        prop_assert!((area / (2.0 * (1.0 - nu) * V) - 1.0).abs() < 1e-9);
    }

    #[test]
    fn the_slope_of_the_surface_is_greatest_where_it_says(h in 0.5f64..10.0, nu in 0f64..=0.5) {
        let (greatest, at) = greatest_surface_slope(V, m(h), nu).unwrap();
        let heave = |x: f64| surface_heave(V, m(h), m(x), nu).unwrap().0.si();
        let falls = |x: f64| -slope(1e-3 * h, |s| heave(x + s));
        let x = at.si();
        prop_assert!((falls(x) / greatest - 1.0).abs() < 1e-8);
        prop_assert!(falls(0.95 * x) < greatest && falls(1.05 * x) < greatest);
    }

    #[test]
    fn a_loss_is_a_gain_with_the_signs_turned_and_no_volume_moves_nothing(
        h in 0.5f64..10.0, x in -5f64..5.0, z in 0f64..20.0, nu in 0f64..=0.5,
    ) {
        let at = |v: f64| buried_displacement(v, m(h), m(x), m(z), nu);
        if let (Ok(gain), Ok(loss)) = (at(V), at(-V)) {
            prop_assert_eq!(gain, (-loss.0, -loss.1));
            prop_assert_eq!(gain, buried_displacement(V, m(h), m(-x), m(z), nu).unwrap());
            prop_assert_eq!(at(0.0).unwrap().0.si(), 0.0);
        }
        prop_assert_eq!(surface_heave(0.0, m(h), m(x), nu).unwrap(), (m(0.0), m(0.0)));
    }

    #[test]
    fn nothing_but_numbers_leaves(
        v in prop_oneof![-100f64..100.0, prop::num::f64::ANY],
        h in prop_oneof![0.01f64..1000.0, prop::num::f64::ANY],
        x in prop_oneof![-1e6f64..1e6, prop::num::f64::ANY],
        z in prop_oneof![0f64..1000.0, prop::num::f64::ANY],
        nu in prop_oneof![0f64..=0.5, prop::num::f64::ANY],
    ) {
        for moved in [
            surface_heave(v, m(h), m(x), nu),
            buried_displacement(v, m(h), m(x), m(z), nu),
        ] {
            prop_assert!(moved.is_err() || moved.is_ok_and(|(a, b)| a.is_finite() && b.is_finite()));
        }
    }
}

#[test]
fn far_away_nothing_moves() {
    for nu in RATIOS {
        for (x, z) in [(1e4, 0.0), (1e4, 900.0), (0.0, 1000.0)] {
            let [ux, uz] = field(1.5, x, z, nu);
            assert!(ux.hypot(uz) < 1e-3 * V, "{nu} {x} {z}");
        }
    }
}

#[test]
fn places_in_the_cylinder_are_refused() {
    let at = |x: f64, z: f64| buried_displacement(V, m(1.5), m(x), m(z), 0.5);
    let radius = (V / PI).sqrt();
    assert!(at(0.0, 1.5).is_err() && at(0.99 * radius, 1.5).is_err());
    assert!(at(1.01 * radius, 1.5).is_ok());
    assert!(surface_heave(V, m(0.9 * radius), m(0.0), 0.5).is_err());
}
