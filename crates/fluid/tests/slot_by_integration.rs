//! The slot formula against numerical integration of the velocity profile, and its properties.

use fluid::{
    Rheology, annulus_loss, annulus_loss_any_regime, annulus_reynolds, bingham_asymptote,
    laminar_limit, slot_velocity,
};
use proptest::prelude::*;
use quantity::{Density, Flow, Length, Pressure, UnitWeight, Velocity, Viscosity, unit};

/// Mean velocity in a slot by integrating `du/dy = −γ̇` from the wall to the plug and the flow
/// with it (RK4). The distance from the plug is a square, which smooths the root at its edge.
fn integrated(tau_y: f64, k: f64, n: f64, tau_w: f64, gap: f64) -> f64 {
    let half = gap / 2.0;
    let plug = half * tau_y / tau_w;
    let rate = |y: f64| ((tau_w * y / half - tau_y).max(0.0) / k).powf(1.0 / n);
    // Derivatives of velocity and flow by s, where y = plug + (half − plug) s².
    let slopes = |s: f64, u: f64| {
        let dy = 2.0 * (half - plug) * s;
        (-rate(plug + (half - plug) * s * s) * dy, -u * dy)
    };
    let steps = 4000;
    let h = -1.0 / f64::from(steps);
    let (mut s, mut u, mut q) = (1.0, 0.0, 0.0);
    for _ in 0..steps {
        let (a1, b1) = slopes(s, u);
        let (a2, b2) = slopes(s + h / 2.0, u + h / 2.0 * a1);
        let (a3, b3) = slopes(s + h / 2.0, u + h / 2.0 * a2);
        let (a4, b4) = slopes(s + h, u + h * a3);
        u += h / 6.0 * (a1 + 2.0 * a2 + 2.0 * a3 + a4);
        q += h / 6.0 * (b1 + 2.0 * b2 + 2.0 * b3 + b4);
        s += h;
    }
    (q + u * plug) / half
}

fn mm(value: f64) -> Length {
    Length::millimetres(value)
}

#[test]
fn the_slot_formula_is_the_integral_of_the_velocity_profile() {
    for (tau_y, k, n, tau_w, gap) in [
        (4.0, 0.5, 0.6, 10.0, 0.04),
        (0.0, 0.02, 1.0, 10.0, 0.04),
        (4.0, 0.02, 1.0, 10.0, 0.04),
        (4.088, 0.259, 0.637, 9.0, 0.038),
        (9.0, 0.3, 0.4, 10.0, 0.1),
        (0.0, 3.0, 0.25, 10.0, 0.04),
        (1.0, 0.05, 1.4, 20.0, 0.02),
    ] {
        let fluid = Rheology::new(Pressure::pascals(tau_y), k, n).unwrap();
        let v = slot_velocity(&fluid, Pressure::pascals(tau_w), Length::metres(gap)).unwrap().si();
        let numerical = integrated(tau_y, k, n, tau_w, gap);
        assert!((v / numerical - 1.0).abs() < 1e-9, "{v} against {numerical}");
    }
}

#[test]
fn water_in_a_slot_follows_the_newtonian_law_and_overstates_an_annulus() {
    let water = Rheology::new(Pressure::ZERO, 1e-3, 1.0).unwrap();
    let flow = Flow::litres_per_second(0.01);
    for (ratio, over) in [(0.1, 0.0742), (0.3, 0.0230), (0.5, 0.0070), (0.9, 0.0002)] {
        let (d2, d1) = (0.2, 0.2 * ratio);
        let loss = annulus_loss(&water, Length::metres(d2), Length::metres(d1), flow).unwrap();
        let (v, gradient) = (loss.velocity.si(), loss.gradient.si());
        assert!((gradient * (d2 - d1).powi(2) / (48.0 * 1e-3 * v) - 1.0).abs() < 1e-12);
        let exact = 32.0 * 1e-3 * v
            / (d2 * d2)
            / (1.0 + ratio * ratio - (1.0 - ratio * ratio) / (1.0 / ratio).ln());
        assert!((gradient / exact - 1.0 - over).abs() < 1e-3, "{ratio}: {}", gradient / exact);
    }
}

#[test]
fn the_reynolds_number_is_that_of_the_field_form() {
    // 928 (D₂ − D₁) V ρ/μ_e, μ_e = 100 K (144 V/(D₂ − D₁))^(n−1) ((2n+1)/(3n))^n, with V in ft/s,
    // D in in, ρ in lb/gal, μ_e in mPa·s and K in dyn·sⁿ/cm².
    let (k, n) = (3.034_66, 0.254_90);
    let fluid = Rheology::new(Pressure::ZERO, k, n).unwrap();
    let (d2, d1) = (Length::inches(6.5), Length::inches(3.5));
    let flow = Flow::from_unit(100.0, unit::GAL_PER_MIN);
    let rho = Density::from_si(1080.0);
    let loss = annulus_loss(&fluid, d2, d1, flow).unwrap();
    let re = annulus_reynolds(rho, loss.velocity, loss.wall_stress).unwrap();
    let v = unit::FT_PER_S.from_si(loss.velocity.si());
    let gap = 3.0;
    let viscosity = 100.0
        * (10.0 * k)
        * (144.0 * v / gap).powf(n - 1.0)
        * ((2.0 * n + 1.0) / (3.0 * n)).powf(n);
    let field = 928.0 * gap * v * unit::PPG.from_si(rho.si()) / viscosity;
    assert!((re / field - 1.0).abs() < 1e-3, "{re} against {field}");
    assert!((re - 213.1).abs() < 0.05, "{re}");
    let still = annulus_reynolds(rho, Velocity::ZERO, Pressure::ZERO).unwrap();
    assert_eq!(still, 0.0);
}

fn fluids() -> impl Strategy<Value = Rheology> {
    (prop_oneof![Just(0.0), 1e-3f64..30.0], 1e-3f64..5.0, 0.15f64..=1.5)
        .prop_filter_map("in range", |(tau, k, n)| Rheology::new(Pressure::pascals(tau), k, n).ok())
}

proptest! {
    #[test]
    fn loss_and_velocity_are_inverse(
        fluid in fluids(), d1 in 50.0f64..400.0, gap in 5.0f64..300.0, log_q in -9f64..-1.0,
    ) {
        let (hole, string) = (mm(d1 + gap), mm(d1));
        let flow = Flow::from_si(10f64.powf(log_q));
        let loss = annulus_loss(&fluid, hole, string, flow).unwrap();
        let slot = (hole - string) / 2.0;
        // Near the yield stress the velocity hangs on the last digits of the wall stress.
        let wall = loss.wall_stress.si();
        let step = Pressure::from_si(wall * 1e-13);
        let low = slot_velocity(&fluid, loss.wall_stress - step, slot).unwrap();
        let high = slot_velocity(&fluid, loss.wall_stress + step, slot).unwrap();
        let v = loss.velocity.si();
        prop_assert!(low.si() <= v * (1.0 + 1e-9) && v <= high.si() * (1.0 + 1e-9));
        prop_assert!((loss.gradient.si() * slot.si() / (2.0 * wall) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn the_gradient_rises_with_the_flow_and_falls_with_the_gap(
        fluid in fluids(), d1 in 50.0f64..400.0, gap in 5.0f64..300.0, q in 1e-5f64..0.05,
    ) {
        let (hole, string) = (mm(d1 + gap), mm(d1));
        let rho = Density::from_si(1080.0);
        let at = |hole: Length, q: f64| {
            let q = Flow::from_si(q);
            let any = annulus_loss_any_regime(&fluid, hole, string, q, rho).unwrap().0.gradient;
            (annulus_loss(&fluid, hole, string, q).unwrap().gradient, any)
        };
        let (laminar, any) = at(hole, q);
        prop_assert!(any >= laminar);
        let (faster, faster_any) = at(hole, q * 1.1);
        prop_assert!(faster > laminar && faster_any > any);
        let (wider, _) = at(hole + mm(1.0), q);
        prop_assert!(wider < laminar);
    }

    #[test]
    fn at_rest_the_wall_stress_is_the_yield_stress_and_little_flow_changes_little(
        fluid in fluids(), d1 in 50.0f64..400.0, gap in 5.0f64..300.0,
    ) {
        let (hole, string) = (mm(d1 + gap), mm(d1));
        let still = annulus_loss(&fluid, hole, string, Flow::ZERO).unwrap();
        prop_assert_eq!(still.wall_stress, fluid.yield_stress());
        prop_assert_eq!(still.velocity, Velocity::ZERO);
        let slow = annulus_loss(&fluid, hole, string, Flow::from_si(1e-300)).unwrap();
        let difference = slow.wall_stress.si() - still.wall_stress.si();
        prop_assert!((0.0..=1e-9).contains(&difference), "{}", difference);
        let rho = Density::from_si(1080.0);
        let (_, re, laminar) =
            annulus_loss_any_regime(&fluid, hole, string, Flow::ZERO, rho).unwrap();
        prop_assert!(re == 0.0 && laminar);
    }

    #[test]
    fn the_asymptote_is_never_less_and_is_reached_by_fast_flow(
        mu in 0.005f64..0.05, tau in 0.1f64..20.0, d1 in 50.0f64..400.0, gap in 5.0f64..300.0,
        q in 1e-6f64..0.05,
    ) {
        let (hole, string) = (mm(d1 + gap), mm(d1));
        let (mu, tau) = (Viscosity::from_si(mu), Pressure::pascals(tau));
        let fluid = Rheology::bingham(mu, tau).unwrap();
        let both = |q: f64| {
            let q = Flow::from_si(q);
            let exact = annulus_loss(&fluid, hole, string, q).unwrap().gradient;
            (exact, bingham_asymptote(mu, tau, hole, string, q).unwrap())
        };
        let (exact, asymptote) = both(q);
        prop_assert!(asymptote >= exact * (1.0 - 1e-12) && asymptote < exact * 1.5);
        let (exact, asymptote) = both(1e4);
        prop_assert!((asymptote / exact - 1.0).abs() < 1e-5);
        let (exact, asymptote) = both(0.0);
        prop_assert!((asymptote / exact - 1.5).abs() < 1e-12);
    }

    #[test]
    fn any_numbers_give_a_finite_result_or_an_error(
        numbers in proptest::array::uniform7(prop_oneof![
            proptest::num::f64::ANY, 0.0f64..1.0, 1.0f64..1e4,
        ]),
    ) {
        let [tau, k, n, hole, string, flow, rho] = numbers;
        let Ok(fluid) = Rheology::new(Pressure::from_si(tau), k, n) else { return Ok(()) };
        let (hole, string) = (Length::from_si(hole), Length::from_si(string));
        let finite = |g: UnitWeight| g.is_finite();
        let flow = Flow::from_si(flow);
        if let Ok(loss) = annulus_loss(&fluid, hole, string, flow) {
            prop_assert!(finite(loss.gradient) && loss.velocity.is_finite());
        }
        let rho = Density::from_si(rho);
        if let Ok((loss, re, laminar)) = annulus_loss_any_regime(&fluid, hole, string, flow, rho) {
            prop_assert!(finite(loss.gradient) && re.is_finite());
            prop_assert_eq!(laminar, re <= laminar_limit(n));
        }
        if let Ok(v) = slot_velocity(&fluid, Pressure::from_si(rho.si()), hole) {
            prop_assert!(v.is_finite());
        }
    }
}
