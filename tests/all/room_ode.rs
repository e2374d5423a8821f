//! The room through a set-back day against an integrator of differential equations.
//!
//! Start at the test.

use crate::demo_job::{chicago, job, plan_of, run_of, text};
use crate::python;
use serde_json::json;
use winterledger::comparison::compare;
use winterledger::load::room::mean_temperature;
use winterledger::simulation::record::{Sink, ZoneRecord};
use winterledger::simulation::{FuelLimits, OptionState, advance};

/// What the first zone was given and came to, hour by hour.
#[derive(Default)]
struct Rooms {
    outdoor: Vec<f64>,
    heat: Vec<f64>,
    end: Vec<f64>,
    mean: Vec<f64>,
    set_points: Vec<f64>,
}

impl Sink for Rooms {
    fn take(&mut self, record: &ZoneRecord<'_>) {
        if record.zone == 0 {
            let room = record.plan.room_in(record.hour, record.outdoor_c);
            let heat = record.outcome.heat - record.outcome.cooling;
            self.outdoor.push(record.outdoor_c);
            self.heat.push(heat);
            self.end.push(record.outcome.end_c);
            self.mean.push(mean_temperature(&room, record.plan.heat_capacity_kwh_k, record.start_c, heat));
            self.set_points.push(record.set_point_c);
        }
    }
}

/// How near the room must be to the integrator's, K.
const WITHIN_K: f64 = 0.01;

#[test]
fn a_set_back_day_is_as_scipys_integrator_has_it() {
    // Independent tool: scipy 1.17.1, solve_ivp (RK45, tolerances 1e-10).
    let set_back =
        ("house.zone.main.set_back", "[{ from = \"22:00\", to = \"06:00\", set_point = \"60 degF\" }]");
    let c = compare(&job(&text(), &[set_back]), &chicago()).unwrap();
    let (mut rooms, run) = (Rooms::default(), run_of(&c));
    // From 1 July, so late in January.
    let plan = plan_of(&c, 0, &run).part(&(24 * 205..24 * 207));
    let mut state = OptionState::at_set_point(&plan);
    let start_c = state.zones[0].room_c;
    advance(&plan, 0..48, &mut state, &mut FuelLimits::none(), &mut rooms);
    let zone = &c.zones[0];
    let case = json!({
        "loss": zone.loss_kw_k, "gains": zone.gains_kw, "heat_capacity": zone.heat_capacity_kwh_k,
        "start": start_c, "outdoor": rooms.outdoor, "heat": rooms.heat,
    });
    let theirs = python::run("room_ode.py", &case.to_string());
    println!("scipy {}", theirs["version"]);
    assert_eq!(theirs["version"], "1.17.1");
    let mut farthest: f64 = 0.0;
    for (key, ours) in [("end", &rooms.end), ("mean", &rooms.mean)] {
        for (hour, ours) in ours.iter().enumerate() {
            let apart = (ours - theirs[key][hour].as_f64().unwrap()).abs();
            assert!(apart < WITHIN_K, "{key}, hour {hour}: {apart} K apart");
            farthest = farthest.max(apart);
        }
    }
    // The day must set back: the room falls by kelvins and is brought up again.
    let (low, high) = rooms.end.iter().fold((99.0_f64, 0.0_f64), |(l, h), t| (l.min(*t), h.max(*t)));
    assert!(high - low > 2.0, "{low} to {high}, {farthest} K apart at most");
}
