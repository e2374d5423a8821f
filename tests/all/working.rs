//! The written-out working against the kernel and against the arithmetic it prints.

use crate::arithmetic;
use std::collections::BTreeSet;
use std::sync::LazyLock;
use winterledger::comparison::working::{Moment, work_out};
use winterledger::comparison::{Comparison, compare};
use winterledger::job::reader;
use winterledger::report::figures::Measure;
use winterledger::report::model::Cell;
use winterledger::report::working::lines;
use winterledger::report::worksheet::bin_worksheet;
use winterledger::simulation::EndUse;
use winterledger::simulation::working::{Running, Step};
use winterledger::units::fahrenheit_to_celsius;
use winterledger::weather::{Weather, places};

fn demo() -> Comparison {
    let job = reader::read("demo.toml", include_str!("../../data/demo.toml").to_owned()).unwrap();
    compare(&job, &Weather::Year(Box::new(places::open("il-chicago").unwrap()))).unwrap()
}

/// What a step says a machine draws, from the figures it gives.
fn by_hand(how: &Running, heat_kw: f64) -> f64 {
    match how {
        Running::Off => 0.0,
        Running::Cycling { power_least_kw, share, part_load_factor, .. } => {
            power_least_kw * share / part_load_factor
        }
        Running::Between { from_kw, power_kw, slope, .. } => power_kw + slope * (heat_kw - from_kw),
    }
}

#[test]
fn every_hour_written_out_recomputes_from_its_own_figures() {
    let controls = [
        ("equipment.main heat pump.defrost_aux", "5 kW"),
        ("option.Heat pumps with strips.zone.main.staged_recovery", "true"),
        ("house.zone.main.set_back", "[{ from = \"22:00\", to = \"06:00\", set_point = \"62 degF\" }]"),
    ];
    let mut seen = Seen::default();
    recomputes(&demo(), &mut seen);
    recomputes(&crate::demo_job::compared(&controls), &mut seen);
    let job = crate::demo_job::job(&crate::ducts::leaky(&crate::demo_job::text()), &controls);
    recomputes(&compare(&job, &crate::demo_job::chicago()).unwrap(), &mut seen);
    assert!(seen.cooled > 0, "no hour of those had cooling");
    // Without the key the furnace behind the heat pump tempers its air.
    let text = crate::demo_job::text();
    let bare = text.lines().filter(|line| !line.starts_with("defrost_aux")).collect::<Vec<_>>().join("\n");
    let mut seen = Seen::default();
    let job = crate::demo_job::job(&bare, &[]);
    recomputes(&compare(&job, &crate::demo_job::chicago()).unwrap(), &mut seen);
    assert!(seen.tempered > 0, "no hour of those had a furnace that tempers");
}

/// Hours in which something was there to be worked.
#[derive(Default)]
struct Seen {
    cooled: usize,
    tempered: usize,
    /// Printed sums that were worked again.
    sums: usize,
    /// Which steps there were.
    kinds: BTreeSet<String>,
}

fn recomputes(c: &Comparison, seen: &mut Seen) {
    for option in 0..c.options.len() {
        for zone in 0..c.zones.len() {
            for hour in (0..8760).step_by(397) {
                let working = work_out(c, option, zone, Moment::Hour(hour)).unwrap();
                let mut own = ByHand::default();
                for step in &working.steps {
                    own.take(step);
                }
                let billed: f64 = working.cost.iter().map(|line| line.kwh).sum();
                assert!(
                    (own.drawn() - billed).abs() < 1e-9,
                    "{hour}: {} drawn, {billed} billed",
                    own.drawn()
                );
                seen.sums += arithmetic::holds(&lines(&working, c));
                seen.kinds.extend(working.steps.iter().map(arithmetic::kind));
                seen.cooled += own.cooled;
                let tempers = working.steps.iter().any(|step| matches!(step, Step::Tempering { .. }));
                seen.tempered += usize::from(tempers);
            }
        }
    }
}

/// What a reader with a calculator has on paper.
#[derive(Default)]
struct ByHand {
    need: f64,
    /// In the room from each heater so far.
    rooms: Vec<f64>,
    /// What each heater draws in its time, of its own fuel and beside it.
    takes: Vec<(usize, f64)>,
    /// The last heater's output, before its share of the hour.
    output: f64,
    /// What else is drawn.
    drawn: f64,
    cooled: usize,
}

impl ByHand {
    fn drawn(&self) -> f64 {
        self.takes.iter().map(|(_, kw)| kw).sum::<f64>() + self.drawn
    }

    fn in_room(&self) -> f64 {
        self.rooms.iter().sum()
    }

    fn take(&mut self, step: &Step) {
        match step {
            Step::Need { loss_kw_k, gains_kw, steady_c, outdoor_c, need_kw, .. } => {
                let own = (loss_kw_k * (steady_c - outdoor_c) - gains_kw).max(0.0);
                assert!((own - need_kw).abs() < 1e-9);
                self.need = *need_kw;
            }
            Step::Wanted { before_kw, need_kw, lacking_kw, ducts, wanted_kw, .. } => {
                assert!((lacking_kw / ducts - wanted_kw).abs() < 1e-12 && *lacking_kw > 0.0, "{step:?}");
                self.lacks(*before_kw, *need_kw, *lacking_kw);
            }
            Step::WantedThrough {
                before_kw, need_kw, lacking_kw, kept, lost_kw, running, wanted_kw, ..
            } => {
                assert!(((lacking_kw + lost_kw * running) / kept - wanted_kw).abs() < 1e-12);
                self.lacks(*before_kw, *need_kw, *lacking_kw);
            }
            Step::AtGreatest { greatest_kw, kept, lost_kw, in_room_kw, .. } => {
                assert!((kept * greatest_kw - lost_kw - in_room_kw).abs() < 1e-9, "{step:?}");
            }
            Step::Output { heater, how, heat_kw, draw_kw, side_kw, side_running_kw } => {
                assert!((by_hand(how, *heat_kw) - draw_kw).abs() < 1e-9, "{step:?}");
                let share = if matches!(how, Running::Off) { 0.0 } else { how.share() };
                assert!((side_running_kw * share - side_kw).abs() < 1e-9, "{step:?}");
                self.takes.push((*heater, draw_kw + side_kw));
                self.output = *heat_kw;
            }
            Step::Tempering { heater, running, heat_kw, draw_kw, side_kw, own_time } => {
                // In no job here does a furnace temper that takes no turns.
                assert!(
                    *heater == 1 && *running <= 1.0 && *own_time == 1.0 && *heat_kw < self.output,
                    "{step:?}"
                );
                assert!(*heat_kw > 0.0 && *draw_kw > *heat_kw, "{step:?}");
                self.drawn += draw_kw + side_kw;
            }
            Step::Defrosting { running_kw, heat_kw, .. } => {
                assert!(*heat_kw > 0.0 && heat_kw <= running_kw && *heat_kw <= self.output, "{step:?}");
            }
            _ => self.take_share(step),
        }
    }

    fn lacks(&self, before_kw: f64, need_kw: f64, lacking_kw: f64) {
        assert!((need_kw - before_kw - lacking_kw).abs() < 1e-12 && lacking_kw > 0.0);
        assert!(need_kw == self.need && (before_kw == 0.0 || (before_kw - self.in_room()).abs() < 1e-9));
    }

    /// Draws of one heater times its share.
    fn shrink(&mut self, heater: usize, share: f64) {
        let of_it = self.takes.iter_mut().filter(|(place, _)| *place == heater);
        of_it.for_each(|(_, kw)| *kw *= share);
    }

    fn take_share(&mut self, step: &Step) {
        match step {
            Step::Turn { heater, share, .. } => self.shrink(*heater, *share),
            Step::Fuelled { heater, most_kwh, asked_kwh, share } => {
                assert!((most_kwh / asked_kwh - share).abs() < 1e-9, "{step:?}");
                self.shrink(*heater, *share);
            }
            Step::Split { first_kw, second_kw, need_kw, share } => {
                let own = (need_kw - first_kw) / (second_kw - first_kw);
                assert!(*need_kw == self.need && (own - share).abs() < 1e-9, "{step:?}");
            }
            Step::Shared { unit_kw, asked, asked_kw, own_kw, left_kw, .. } => {
                let sum: f64 = asked.iter().map(|(_, kw)| kw).sum();
                assert!((sum - asked_kw).abs() < 1e-9 && unit_kw < asked_kw, "{step:?}");
                assert!((own_kw * unit_kw / asked_kw - left_kw).abs() < 1e-9, "{step:?}");
            }
            Step::InRoom { heat_kw, share, kept, lost_kw, running, in_room_kw, .. } => {
                let own = share * (kept * heat_kw - lost_kw * running);
                assert!((own - in_room_kw).abs() < 1e-9, "{step:?}");
                self.rooms.push(*in_room_kw);
            }
            Step::Weighed(weighed) => {
                let costs = [weighed.first, weighed.second].map(|one| {
                    let beside = (one.side_kw + one.instead_kw) * one.side_worth;
                    assert!((by_hand(&one.how, one.heat_kw) - one.draw_kw).abs() < 1e-9, "{one:?}");
                    assert!((one.draw_kw * one.worth + beside - one.cost).abs() < 1e-9, "{one:?}");
                    one.cost / one.in_room_kw
                });
                assert_eq!(weighed.second_wins, costs[1] < costs[0], "{step:?}");
            }
            _ => self.take_rest(step),
        }
    }

    fn take_rest(&mut self, step: &Step) {
        match step {
            Step::Recovering { hour, .. } => assert!((1..=3).contains(hour)),
            Step::Delivered { parts, heat_kw, need_kw } => {
                assert!((self.in_room() - heat_kw).abs() < 1e-9, "{step:?} {:?}", self.rooms);
                assert!((parts.iter().sum::<f64>() - heat_kw).abs() < 1e-9, "{step:?}");
                assert_eq!(*need_kw, self.need);
            }
            Step::CoolingNeed { loss_kw_k, gains_kw, steady_c, outdoor_c, need_kw, .. } => {
                let own = loss_kw_k * (outdoor_c - steady_c) + gains_kw;
                assert!(*need_kw == 0.0 || (own - need_kw).abs() < 1e-9, "{step:?}");
                self.need = *need_kw;
            }
            Step::Cooled { sensible, wanted_kw, how, cooling_kw, draw_kw, side_kw, .. } => {
                assert!((self.need / sensible - wanted_kw).abs() < 1e-9, "{step:?}");
                assert!((by_hand(how, *cooling_kw) - draw_kw).abs() < 1e-9, "{step:?}");
                self.drawn += draw_kw + side_kw;
                self.cooled += 1;
            }
            Step::Standby { kw } => self.drawn += kw,
            Step::Ends { end_c, vented_k } => assert!(end_c.is_finite() && *vented_k >= 0.0),
            other => panic!("{other:?} is not worked"),
        }
    }
}

/// Two heads on one outdoor unit, a stove that is filled by hand, strips held back; and a heat pump and a
/// furnace that take turns by cost.
fn heads() -> &'static Comparison {
    static HEADS: LazyLock<Comparison> = LazyLock::new(|| {
        let job = reader::read("heads.toml", include_str!("../data/heads.toml").to_owned()).unwrap();
        compare(&job, &crate::demo_job::chicago()).unwrap()
    });
    &HEADS
}

#[test]
fn heads_turns_by_cost_and_recovery_recompute_and_each_kind_of_step_is_there() {
    let mut seen = Seen::default();
    recomputes(heads(), &mut seen);
    // A cold morning of each option: the heads ask for more than the unit can give, strips are held back.
    for hour in [4975, 4976, 4977, 4150] {
        for option in 0..2 {
            let working = work_out(heads(), option, 0, Moment::Hour(hour)).unwrap();
            seen.sums += arithmetic::holds(&lines(&working, heads()));
            seen.kinds.extend(working.steps.iter().map(arithmetic::kind));
        }
    }
    let kinds = ["AtGreatest", "Cooled", "Fuelled", "Recovering", "Shared", "Split", "Turn", "Weighed"];
    for kind in kinds {
        assert!(seen.kinds.contains(kind), "{kind} is not among {:?}", seen.kinds);
    }
    assert!(seen.sums > 500, "only {} sums", seen.sums);
    // Steady hours, from below the cut-out to above the lock-out of the strips.
    for fahrenheit in [-20.0, -4.0, 0.0, 17.0, 20.0, 35.0, 50.0] {
        for option in 0..2 {
            let moment = Moment::Outdoor(fahrenheit_to_celsius(fahrenheit));
            let working = work_out(heads(), option, 0, moment).unwrap();
            assert!(arithmetic::holds(&lines(&working, heads())) > 1);
        }
    }
}

#[test]
fn every_figure_is_traced_to_where_it_comes_from() {
    let text = include_str!("../data/sources.toml");
    let job = reader::read("sources.toml", text.to_owned()).unwrap();
    let c = compare(&job, &crate::demo_job::chicago()).unwrap();
    let sums = std::cell::Cell::new(0);
    let worked = |option: usize, moment: Moment| {
        let working = work_out(&c, option, 0, moment).unwrap();
        let told = lines(&working, &c);
        sums.set(sums.get() + arithmetic::holds(&told));
        (told.join("\n"), working)
    };
    for option in 0..4 {
        for hour in [1300, 2900, 4975, 5500, 6200] {
            worked(option, Moment::Hour(hour));
        }
    }
    let at = |fahrenheit: f64| Moment::Outdoor(fahrenheit_to_celsius(fahrenheit));
    let steady: Vec<_> = [(0, 20.0), (1, 24.0), (1, 30.0), (2, 30.0), (3, -15.0), (3, 30.0)]
        .map(|(option, fahrenheit)| worked(option, at(fahrenheit)))
        .into_iter()
        .collect();
    let line = |of: &str| 1 + text.lines().position(|line| line.contains(of)).unwrap();
    // Hand-worked. At 26 °F frost is (26 − 17)/18 = 0.5 deep: 0.95 of the capacity, 0.9925 of the power; at
    // 5,000 ft the maker's 0.9; 400 W are 1.365 kBtu/h: 25·0.95·0.9 + 1.365 = 22.740; 25/(3.412142·2.6)·0.9925.
    let row = format!("Row of its map at 26.00 \u{b0}F (line {} of the job)", line("outdoor = \"26 degF\""));
    let parts = [
        (0, "of the surface\u{2019}s yearly wave is left".to_owned()),
        (0, "Without a date the ground counts at its worst".to_owned()),
        (0, "of that the room gives".to_owned()),
        (1, row),
        (1, "kBtu/h \u{d7} 0.9500 \u{d7} 0.9000 + 1.365 kBtu/h = 22.740 kBtu/h".to_owned()),
        (1, "power 2.8180 kW \u{d7} 0.99250 = 2.7969 kW".to_owned()),
        (
            2,
            "nobody gives a row there; on the line between those at 26.00 \u{b0}F and 47.00 \u{b0}F"
                .to_owned(),
        ),
        (3, "Its rows are those of the built-in table single-speed-36".to_owned()),
        // 4 % a thousand feet: 80·0.80·0.95 + 0.5·3.412142 = 62.506.
        (4, "80.000 kBtu/h \u{d7} 0.8000 \u{d7} 0.9500 + 1.706 kBtu/h = 62.506 kBtu/h".to_owned()),
        (4, format!("line {} of the job", line("input = \"80000 Btu/h\""))),
        (5, format!("derived from its nameplate (line {} of the job)", line("[equipment.nameplate]"))),
        (5, "Loss: design load 36.000 kBtu/h / (70.00 \u{b0}F \u{2212} 0.00 \u{b0}F) = 0.5143".to_owned()),
        // The form at 1,000 cfm, air of 12.228/14.696 psi: e^(−270/(6·1,080·0.8321)) = 0.9512, times 0.9.
        (5, "= 0.9512 of a difference is left".to_owned()),
        (5, "0.9000 \u{d7} 0.9512 = 0.8560".to_owned()),
    ];
    for (place, part) in parts {
        assert!(steady[place].0.contains(&part), "{part} is not in\n{}", steady[place].0);
    }
    assert!(sums.get() > 250, "only {} sums", sums.get());
    // What the water heater is told to take is what the run took.
    let (text, working) = worked(1, Moment::Hour(4975));
    let water = working.water.unwrap();
    let Step::Need { gains_kw, .. } = working.steps[0] else { panic!("{text}") };
    assert!((water.gains_kw - water.taken_kw - gains_kw).abs() < 1e-12, "{text}");
    assert!(worked(0, Moment::Hour(4975)).0.contains("degrees from its coldest"));
}

#[test]
fn what_keeps_a_machine_off_is_told_with_its_figures() {
    let c = heads();
    let run = crate::demo_job::run_of(c);
    let told = |option, hour| lines(&work_out(c, option, 0, Moment::Hour(hour)).unwrap(), c).join("\n");
    // The head cuts out at −4 °F and starts again above 3 °F: the hour that begins between the two after colder
    // ones has it off, one after warmer ones on.
    let between = |t: f64| t > fahrenheit_to_celsius(-4.0) && t <= fahrenheit_to_celsius(3.0);
    let mut was_off = false;
    let mut hours = [None, None];
    for (i, t) in run.dry_bulb_c.iter().enumerate() {
        was_off = if between(*t) { was_off } else { *t <= fahrenheit_to_celsius(-4.0) };
        if between(*t) {
            hours[usize::from(was_off)].get_or_insert(i);
        }
    }
    let [on, off] = hours.map(Option::unwrap);
    assert!(!told(0, on).contains("cut-out"), "{}", told(0, on));
    let text = told(0, off);
    assert!(
        text.contains("is above its cut-out of \u{2212}4.00 \u{b0}F but not above 3.00 \u{b0}F"),
        "{text}"
    );
    assert!(text.contains("it is off, as it has been since"), "{text}");
    let held = told(0, 4976);
    assert!(held.contains("base 9 is held back until then (staged recovery)"), "{held}");
    let warm = lines(&work_out(c, 0, 0, Moment::Outdoor(fahrenheit_to_celsius(45.0))).unwrap(), c).join("\n");
    assert!(!warm.contains("base 9:"), "{warm}");
}

#[test]
fn a_steady_hour_at_17_degrees_reads_as_worked_by_hand() {
    let c = demo();
    let working = work_out(&c, 0, 0, Moment::Outdoor(fahrenheit_to_celsius(17.0))).unwrap();
    let text = lines(&working, &c).join("\n");
    // Hand-worked: 475 Btu/h·°F × (70 − 17) − 475 × (70 − 62) = 25,175 − 3,800 = 21,375 Btu/h; ducts 0.95:
    // 22,500. Map row at 17 °F: least 10,000 at COP 2.55 = 1.1493 kW, greatest 32,000 at 2.35 = 3.9908 kW.
    // Draw 1.1493 + (3.9908 − 1.1493)/22 × 12.5 = 2.7638 kW; at $0.184: $0.5085.
    for part in [
        "\u{2212} gains 3.800 kBtu/h = 21.375 kBtu/h.",
        "21.375 kBtu/h / 0.9500 = 22.500 kBtu/h wanted.",
        "least 10.000 kBtu/h for 1.1493 kW, greatest 32.000 kBtu/h for 3.9908 kW",
        "= 2.7638 kW.",
        "Cost of the hour: $0.5085.",
    ] {
        assert!(text.contains(part), "{part} is not in\n{text}");
    }
}

#[test]
fn what_a_cold_option_needs_is_what_a_warm_one_gets() {
    // The same room with ample heat: what the one lacked is all that the other got more.
    let c = crate::demo_job::compared(&[]);
    let of = |name: &str| c.options.iter().find(|o| o.design.name == name).unwrap().zones[0].sums.clone();
    let (cold, warm) = (of("Heat pumps alone"), of("Electric resistance"));
    assert!(cold.need_kwh > cold.needed_kwh() + 100.0, "nothing was wanted twice");
    assert!((cold.needed_kwh() - warm.heat_kwh).abs() < 0.5, "{} {}", cold.needed_kwh(), warm.heat_kwh);
}

#[test]
fn a_lock_out_is_named_in_the_working() {
    let c = demo();
    // The option's compressor lock-out is 15 degF.
    let two_fuel = c.options.iter().position(|o| o.design.name == "Heat pump and propane").unwrap();
    let at = |fahrenheit| {
        let moment = Moment::Outdoor(fahrenheit_to_celsius(fahrenheit));
        lines(&work_out(&c, two_fuel, 0, moment).unwrap(), &c).join("\n")
    };
    let words = "main heat pump is locked out: outdoors \u{2212}5.00 °F is colder than its compressor lock-out of 15.00 °F.";
    assert!(at(-5.0).contains(words), "{}", at(-5.0));
    assert!(!at(30.0).contains("locked out"), "{}", at(30.0));
    assert!(at(30.0).contains("propane furnace has no part of this hour"), "{}", at(30.0));
}

#[test]
fn a_steady_hour_costs_what_its_row_of_the_worksheet_says() {
    let c = demo();
    let sheet = bin_worksheet(&c, Measure(c.units));
    let of_cost = sheet.columns.iter().position(|column| column.key == "cost").unwrap();
    let rows = sheet.rows;
    let words = |cell: &Cell| if let Cell::Text(text) = cell { text.clone() } else { String::new() };
    let value = |cell: &Cell| if let Cell::Number { value, .. } = cell { *value } else { f64::NAN };
    for option in 0..c.options.len() {
        let name = &c.options[option].design.name;
        let of_17 = |row: &&Vec<Cell>| words(&row[0]) == *name && (value(&row[3]) - 17.0).abs() < 1e-9;
        let row = rows.iter().find(of_17).unwrap();
        let working = work_out(&c, option, 0, Moment::Outdoor(fahrenheit_to_celsius(17.0))).unwrap();
        let cost: f64 = working.cost.iter().map(|line| line.kwh * line.price_per_kwh).sum();
        assert!((cost * value(&row[4]) - value(&row[of_cost])).abs() < 1e-9, "{name}: {cost} an hour");
    }
}

#[test]
fn under_its_bins_each_option_stands_summed_beside_its_hours() {
    let c = demo();
    let sheet = bin_worksheet(&c, Measure(c.units));
    let at = |key: &str| sheet.columns.iter().position(|column| column.key == key).unwrap();
    let (row_is, of_use, remark) = (at("row"), at("use"), at("remark"));
    let words = |cell: &Cell| if let Cell::Text(text) = cell { text.clone() } else { String::new() };
    let value = |cell: &Cell| if let Cell::Number { value, .. } = cell { *value } else { 0.0 };
    let quantities: Vec<usize> = (0..sheet.columns.len())
        .filter(|i| {
            ["electricity_kWh", "propane_gal", "oil_no_2_gal", "cost"]
                .contains(&sheet.columns[*i].key.as_str())
        })
        .collect();
    assert_eq!(quantities.len(), 4);
    for option in &c.options {
        let own: Vec<_> = sheet.rows.iter().filter(|row| words(&row[0]) == option.design.name).collect();
        let of = |kind: &str| own.iter().filter(|row| words(&row[row_is]) == kind).collect::<Vec<_>>();
        for i in &quantities {
            // The bins of all zones add up to the sums of all uses: every kWh, gallon and dollar once.
            let bins: f64 = of("bin").iter().map(|row| value(&row[*i])).sum();
            let sums: f64 = of("sum of bins").iter().map(|row| value(&row[*i])).sum();
            assert!((bins - sums).abs() < 1e-6 * bins.max(1.0), "{}: {bins} {sums}", sheet.columns[*i].key);
        }
        // What the hours drew is what the ledger posted for heating and cooling.
        let electricity = c.fuels.find("electricity").unwrap();
        let hours: f64 = of("hours of the year").iter().map(|row| value(&row[at("electricity_kWh")])).sum();
        let uses = [EndUse::SpaceHeating, EndUse::BackupHeat, EndUse::Cooling, EndUse::Standby];
        let posted = option
            .ledger
            .postings
            .iter()
            .filter(|p| p.fuel == electricity && uses.contains(&p.end_use) && p.reason.is_energy());
        let posted: f64 = posted.map(|p| p.quantity).sum();
        assert!((hours - posted).abs() < 1e-6 * posted, "{}: {hours} {posted}", option.design.name);
        let cooling: Vec<_> =
            of("sum of bins").into_iter().filter(|row| words(&row[of_use]) == "cooling").collect();
        assert!(words(&cooling[0][remark]).contains("Bins overstate cooling"), "{:?}", cooling[0]);
    }
}

#[test]
fn what_a_map_gives_beyond_its_rows_is_told() {
    let c = demo();
    let at = |fahrenheit| {
        let moment = Moment::Outdoor(fahrenheit_to_celsius(fahrenheit));
        lines(&work_out(&c, 0, 0, moment).unwrap(), &c).join("\n")
    };
    // The demonstration's map ends at 47 °F, which holds; at −13 °F its line goes on, by 5 K = 9 °F at most,
    // here to the cut-out of −17 °F.
    assert!(
        at(55.0).contains("Warmer than the rows of its map: what it gives at 47.00 °F holds."),
        "{}",
        at(55.0)
    );
    assert!(
        at(-16.0).contains("Colder than the rows of its map: the line through its last two rows goes on.")
    );
    assert!(!at(20.0).contains("the rows of its map"), "{}", at(20.0));
    // Where strips run at their one output there is nothing for each further kW.
    assert!(!at(-16.0).contains("0.00000 kW for each further"), "{}", at(-16.0));
}
