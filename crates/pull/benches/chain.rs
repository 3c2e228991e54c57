//! Speed of the chain: all head positions of a 60-pipe string, empty and ballasted.

use line::{LevelDesign, Line, PlanBend};
use pull::chain::{ChainSetup, Outside, Setup, pull};
use quantity::{Angle, ForcePerLength, Length, Pressure};

fn main() {
    divan::main();
}

fn crossing() -> Line {
    let design = LevelDesign {
        entry_level: Length::metres(4.0),
        exit_level: Length::metres(3.5),
        run: Length::metres(355.0),
        entry_angle: Angle::degrees(12.0),
        exit_angle: Angle::degrees(9.0),
        entry_radius: Length::metres(220.0),
        exit_radius: Length::metres(240.0),
        lowest_level: Length::metres(-10.0),
        azimuth: Angle::degrees(35.0),
        bends: vec![PlanBend {
            start_chainage: Length::metres(120.0),
            radius: Length::metres(400.0),
            angle: Angle::degrees(12.0),
        }],
    };
    Line::from_level(&design).expect("the bench crossing is feasible")
}

/// Net weights in N/m: strongly buoyant, nearly weightless, sinking.
#[divan::bench(args = [-1900.0, -60.0, 950.0])]
fn all_heads_of_sixty_pipes(bencher: divan::Bencher, net_weight: f64) {
    let line = crossing();
    let joined = [(Length::metres(360.0), line.length())];
    let setup = ChainSetup::new(&Setup {
        line: &line,
        bore_diameter: Length::millimetres(1100.0),
        laying_length: Length::metres(6.0),
        barrel_diameter: Length::millimetres(645.0),
        socket_diameter: Length::millimetres(760.0),
        net_weight: ForcePerLength::newtons_per_metre(net_weight),
        friction: 0.3,
        fluid_stress: Pressure::pascals(172.0),
        head_link: Length::metres(1.5),
        outside: Outside {
            weight: ForcePerLength::newtons_per_metre(1560.0),
            friction: 0.1,
            slope: Angle::ZERO,
            joined: &joined,
        },
    })
    .expect("the bench setup is valid");
    bencher.bench_local(|| pull(&setup, 1).expect("the bench crossing settles"));
}
