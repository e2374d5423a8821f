//! The charts of months, of hours in which machines are not enough, and of the coldest week.

use crate::demo_job::{plan_of, run_of};
use crate::sheet::demo;
use winterledger::comparison::week::coldest_days_of;
use winterledger::report::charts::{ChartError, MonthLine, MonthsChart, ShortHours, ShortHoursChart};
use winterledger::report::figures::Measure;
use winterledger::report::winter_pictures::{coldest_week, months, short_hours};
use winterledger::simulation::record::Trace;
use winterledger::simulation::{FuelLimits, OptionState, advance};

fn two_months(amounts: Vec<f64>) -> MonthsChart {
    MonthsChart {
        title: "Months".into(),
        subtitle: String::new(),
        currency: "$".into(),
        months: vec!["Jan".into(), "Feb".into()],
        lines: vec![MonthLine { name: "one".into(), option: 0, amounts }],
        foot: String::new(),
    }
}

#[test]
fn months_tell_their_amounts_and_refuse_what_cannot_be_drawn() {
    let svg = two_months(vec![100.0, 40.0]).draw().unwrap();
    assert!(svg.contains("one: Jan $100, Feb $40."), "{svg}");
    for bad in [vec![1.0], vec![1.0, f64::NAN], vec![1.0, 1e10]] {
        assert!(matches!(two_months(bad).draw(), Err(ChartError::BadValue(_))));
    }
    assert_eq!(MonthsChart { lines: Vec::new(), ..two_months(vec![]) }.draw(), Err(ChartError::Empty));
}

#[test]
fn hours_that_no_year_has_are_refused() {
    let chart = |cold: f64| ShortHoursChart {
        title: "Hours".into(),
        subtitle: String::new(),
        options: vec![ShortHours { name: "one".into(), backup: 5.0, cold, lowest: None }],
        foot: String::new(),
    };
    assert!(chart(0.0).draw().unwrap().contains("one: backup heat 5 h, too cold 0 h."));
    for bad in [-1.0, 9000.0, f64::NAN] {
        assert!(matches!(chart(bad).draw(), Err(ChartError::BadValue(_))));
    }
}

/// The months of the chart add up to what the ledger posts to months: what it shows is not made anew.
#[test]
fn the_months_of_an_option_add_up_to_its_year() {
    let made = demo();
    let chart = months(&made.c, "").unwrap();
    for (line, option) in chart.lines.iter().zip(&made.c.options) {
        let posted = option.ledger.sum(|p| p.month.is_some());
        assert!((line.amounts.iter().sum::<f64>() - posted).abs() < 1e-6, "{}", line.name);
    }
    let cold = short_hours(&made.c, Measure(made.c.units), "");
    assert_eq!(cold.options[1].cold, made.c.options[1].hours_not_kept_warm() as f64);
}

/// The coldest week is the simulation's own, and the option that goes cold comes first.
#[test]
fn the_coldest_week_is_that_of_the_simulation() {
    let made = demo();
    let chart = coldest_week(&made.c, Measure(made.c.units), "").unwrap();
    assert_eq!(chart.options[0].name, "Heat pumps alone");
    assert_eq!(chart.days.len(), 7);
    let days = coldest_days_of(&made.c, 1, 0, 7).unwrap();
    let run = run_of(&made.c);
    let plan = plan_of(&made.c, 1, &run);
    let mut trace = Trace::default();
    let hours = plan.outdoor_c.len();
    advance(&plan, 0..hours, &mut OptionState::at_set_point(&plan), &mut FuelLimits::none(), &mut trace);
    let first = plan.outdoor_c.windows(168).position(|week| week == days.outdoor_c).unwrap();
    assert_eq!(first % 24, 0);
    for (h, room) in days.room_c.iter().enumerate() {
        assert_eq!(trace.outcomes[(first + h) * made.c.zones.len()].end_c, *room);
    }
    assert!(days.others_kw.iter().all(|kw| *kw == 0.0), "an option without strips has no help");
    assert!(coldest_days_of(&made.c, 0, 9, 7).is_none());
}
