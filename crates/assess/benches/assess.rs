//! Speed of a whole assessment: the demo crossing, and the one that fails and therefore looks for remedies.

use assess::{assess, explain, judge_design};

fn main() {
    divan::main();
}

fn crossing(text: &str) -> project::Project {
    project::read("bench.toml", text).expect("the demo reads")
}

#[divan::bench]
fn demo(bencher: divan::Bencher) {
    let project = crossing(include_str!("../../../demo/creek.toml"));
    bencher.bench_local(|| assess(&project));
}

/// What a line that is dragged asks for.
#[divan::bench]
fn judged(bencher: divan::Bencher) {
    let text = include_str!("../../../demo/creek-fails.toml");
    let design = project::Design::Crossing(Box::new(crossing(text)));
    bencher.bench_local(|| judge_design(&design));
}

#[divan::bench]
fn demo_that_fails(bencher: divan::Bencher) {
    let project = crossing(include_str!("../../../demo/creek-fails.toml"));
    bencher.bench_local(|| assess(&project));
}

#[divan::bench]
fn explain_joint_force(bencher: divan::Bencher) {
    let project = crossing(include_str!("../../../demo/creek.toml"));
    bencher.bench_local(|| explain(&project, "pull.joint-force"));
}

/// Fluid and ground in all stages at places every 0.5 m over 400 m, and the working of one check.
#[divan::bench]
fn fluid_over_400_m(bencher: divan::Bencher) {
    let text = include_str!("../../../demo/creek.toml")
        .replace("run = \"290 m\"", "run = \"395 m\"")
        .replace("[300, 3.6]", "[400, 3.6]");
    let project = crossing(&text);
    bencher.bench_local(|| explain(&project, "fluid.restart"));
}

#[divan::bench]
fn read_demo(bencher: divan::Bencher) {
    bencher.bench_local(|| crossing(include_str!("../../../demo/creek.toml")));
}
