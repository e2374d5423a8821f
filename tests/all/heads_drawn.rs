//! The capacity chart of heads on one outdoor unit against what the coldest night says of them.

use winterledger::coldnight::carried::carried;
use winterledger::comparison::compare;
use winterledger::job::reader;
use winterledger::report::capacity_picture::capacity;
use winterledger::report::figures::Measure;
use winterledger::units::fahrenheit_to_celsius;

#[test]
fn the_chart_draws_of_a_head_what_its_outdoor_unit_leaves_it() {
    let job = reader::read("heads.toml", include_str!("../data/heads.toml").to_owned()).unwrap();
    let c = &compare(&job, &crate::demo_job::chicago()).unwrap();
    let measure = Measure(c.units);
    let chart = capacity(c, measure, "");
    let mut compared = 0;
    for (z, panel) in chart.panels.iter().enumerate() {
        let design = &c.options[0].design.zones[z];
        let first = &c.machines[design.heaters[0]];
        if first.outdoor_unit.is_none() {
            continue;
        }
        let curve = panel.machines.iter().find(|curve| curve.name == first.name).unwrap();
        for &(degrees_f, shown) in &curve.greatest {
            let off_to_f = curve.on_again.unwrap_or(f64::NEG_INFINITY);
            if degrees_f > off_to_f + 1e-6 {
                let kw = carried(&c.zones[z], design, &c.machines, fahrenheit_to_celsius(degrees_f))
                    .first_capacity_kw;
                assert!(
                    (shown - measure.power(kw)).abs() < 1e-9,
                    "{}, {degrees_f}: {shown}, {kw}",
                    first.name
                );
                compared += 1;
            }
        }
    }
    // One head comes first, every half kelvin from its cut-on of 3 °F to 65 °F is about 68 points.
    assert!(compared > 50, "{compared}");
}
