//! Bills of electricity, gas and propane: hand-worked amounts, a second reckoning by plain loops, and
//! what a heating rate does to an option.
//!
//! Start at [`Bill`].

use crate::demo_job::{chicago, job, plan_of, run_of, text};
use crate::oracle_agrees::dice::Dice;
use chrono_tz::Tz;
use winterledger::calendar::{Calendar, MonthDay, Stamp};
use winterledger::comparison::laid::laid;
use winterledger::comparison::{Comparison, OptionResult, compare};
use winterledger::fuel::{FuelId, Fuels};
use winterledger::job::reader::read;
use winterledger::ledger::{Ledger, Posting, Reason};
use winterledger::prices::from_job::prices;
use winterledger::prices::{
    ClockHours, DaysOfWeek, FuelPrice, Prices, Rate, Rider, RiderCharge, Spike, Tier,
};
use winterledger::simulation::record::{Sink, Trace, ZoneRecord};
use winterledger::simulation::{EndUse, EnergyByHour, FuelLimits, OptionState, advance};
use winterledger::supply::meter::{Customer, accounts, bill_months, one_bill};

/// The demonstration job with other prices of electricity.
fn with_electricity(prices: &str) -> String {
    let text = text();
    let (from, to) = (text.find("[prices.electricity]").unwrap(), text.find("[prices.propane]").unwrap());
    format!("{}[prices.electricity]\n{prices}\n\n{}", &text[..from], &text[to..])
}

pub(crate) fn read_prices(electricity: &str) -> Prices {
    let job = read("x.toml", with_electricity(electricity)).unwrap_or_else(|p| panic!("{p:?}"));
    prices(&job, &Fuels::built_in().unwrap(), &mut Default::default()).unwrap()
}

/// A year of steady use by the clock of New York, billed.
struct Bill {
    ledger: Ledger,
    stamps: Vec<Stamp>,
}

impl Bill {
    fn of(prices: &Prices, year: i32, zone: Option<Tz>, uses: &[(EndUse, f64)]) -> Self {
        let hours = if year % 4 == 0 { 8784 } else { 8760 };
        let calendar = Calendar::of_one_year(year, hours, -5.0, zone);
        let fuels = Fuels::built_in().unwrap();
        let mut energy = EnergyByHour::new(fuels.count(), hours);
        for (end_use, kwh) in uses {
            (0..hours).for_each(|hour| energy.add(FuelId::ELECTRICITY, *end_use, hour, *kwh));
        }
        let ledger = billed(&energy, calendar.stamps(), prices);
        Self { ledger, stamps: calendar.stamps().to_vec() }
    }

    fn month(&self, month: u8, which: impl Fn(&Posting) -> bool) -> f64 {
        self.ledger.sum(|p| p.month == Some(month) && which(p))
    }

    fn kwh(&self, month: u8) -> Vec<f64> {
        let lines = self.ledger.bills().into_iter().map(|line| line.whole);
        lines.filter(|p| p.month == Some(month) && p.reason.is_energy()).map(|p| p.quantity).collect()
    }
}

fn billed(energy: &EnergyByHour, stamps: &[Stamp], prices: &Prices) -> Ledger {
    let fuels = Fuels::built_in().unwrap();
    let customer = Customer { heating: vec![FuelId::ELECTRICITY], ..Customer::default() };
    let accounts = accounts(energy, Some(stamps), prices, &fuels, &customer, &EndUse::DRAWING);
    Ledger::of(&bill_months(stamps), &accounts)
}

const NEW_YORK: Option<Tz> = Some(chrono_tz::America::New_York);

const BY_TIME_OF_USE: &str = r#"
fixed = "15 $/month"
tax = 0.05
price = "0.14 $/kWh"
rider = [{ name = "fuel adjustment", share = 0.03 }]
[[prices.electricity.period]]
name = "evening"
from = "17:00"
to = "21:00"
days = "weekdays"
price = "0.30 $/kWh"
[[prices.electricity.period]]
name = "night"
from = "00:00"
to = "06:00"
price = "0.08 $/kWh"
"#;

#[test]
fn a_bill_by_time_of_use_comes_to_the_hand_worked_amounts() {
    let prices = read_prices(BY_TIME_OF_USE);
    let one_kw = [(EndUse::Base, 1.0)];
    let energy = |p: &Posting| p.reason.is_energy();
    // Hand-worked: 1 kW all the time.
    let february = Bill::of(&prices, 2023, NEW_YORK, &one_kw);
    assert_eq!(february.kwh(2), [80.0, 168.0, 424.0]);
    assert!((february.month(2, energy) - 96.80).abs() < 1e-5);
    assert!((february.month(2, |_| true) - 120.43920).abs() < 1e-5);
    let march = Bill::of(&prices, 2024, NEW_YORK, &one_kw);
    assert_eq!(march.kwh(3), [84.0, 185.0, 474.0]);
    assert!((march.month(3, energy) - 106.36).abs() < 1e-5);
    assert!((march.month(3, |_| true) - 130.77834).abs() < 1e-5);
    let standard = Bill::of(&prices, 2024, None, &one_kw);
    assert!((standard.month(3, |_| true) - 130.86486).abs() < 1e-5);
}

const TIERS: &str = r#"
tier = [
  { up_to = "500 kWh", price = "0.12 $/kWh" },
  { up_to = "700 kWh", price = "0.16 $/kWh" },
  { price = "0.20 $/kWh" },
]
"#;

#[test]
fn tiers_begin_at_their_hour_and_uses_stack_on_them() {
    let prices = read_prices(TIERS);
    let uses = [(EndUse::Base, 0.4), (EndUse::HotWater, 0.2), (EndUse::SpaceHeating, 0.4)];
    let bill = Bill::of(&prices, 2024, NEW_YORK, &uses);
    // Hand-worked.
    let of_use = |u: EndUse| bill.month(3, |p| p.end_use == u);
    assert!((bill.month(3, |_| true) - 100.60).abs() < 1e-9);
    assert!((of_use(EndUse::Base) - 35.664).abs() < 1e-9);
    assert!((of_use(EndUse::HotWater) - 17.832).abs() < 1e-9);
    assert!((of_use(EndUse::SpaceHeating) - 47.104).abs() < 1e-9);
    let price = prices.of(FuelId::ELECTRICITY).unwrap();
    let march = bill.stamps.iter().filter(|s| s.month == 3);
    let dear: Vec<_> =
        march.enumerate().map(|(used, stamp)| (stamp, price.marginal(*stamp, used as f64))).collect();
    let begins = |per_kwh: f64| dear.iter().find(|(_, p)| *p == per_kwh).map(|(s, _)| (s.day, s.hour));
    assert_eq!((begins(0.16), begins(0.20)), (Some((21, 21)), Some((30, 5))));
}

#[test]
fn demand_is_charged_to_whoever_raises_the_largest_hour() {
    let prices = read_prices("price = \"0.10 $/kWh\"\ndemand = \"8 $/kW\"\ntax = 0.10\n");
    let fuels = Fuels::built_in().unwrap();
    let calendar = Calendar::of_one_year(2023, 8760, -5.0, NEW_YORK);
    let mut energy = EnergyByHour::new(fuels.count(), 8760);
    // Base: 1 kW, in one January hour 3 kW; heat: 5 kW in another hour of January.
    let january: Vec<_> = (0..8760).filter(|h| calendar.stamps()[*h].month == 1).collect();
    for hour in &january {
        energy.add(FuelId::ELECTRICITY, EndUse::Base, *hour, 1.0);
    }
    energy.add(FuelId::ELECTRICITY, EndUse::Base, january[100], 2.0);
    energy.add(FuelId::ELECTRICITY, EndUse::SpaceHeating, january[200], 5.0);
    let ledger = billed(&energy, calendar.stamps(), &prices);
    let demand = |u| ledger.sum(|p| p.reason == Reason::Demand && p.end_use == u);
    // Hand-worked: the base alone asks 3 kW, with heat 6 kW.
    assert_eq!((demand(EndUse::Base), demand(EndUse::SpaceHeating)), (24.0, 24.0));
    // (746 + 5) kWh × 0.10 + 6 kW × 8 = 123.10; a tenth more.
    assert!((ledger.total() - 1.1 * (75.1 + 48.0)).abs() < 1e-9, "{}", ledger.total());
}

/// Any tariff that the job's keys can describe, made from dice.
fn any_price(dice: &mut Dice) -> FuelPrice {
    let tiers = |dice: &mut Dice| {
        let limits = [dice.real(50.0, 300.0), dice.real(300.0, 900.0), f64::INFINITY];
        let skip = dice.below(3);
        let mut tier = |up_to_kwh| Tier { up_to_kwh, per_kwh: dice.real(-0.05, 0.4) };
        limits[skip..].iter().map(|limit| tier(*limit)).collect::<Vec<_>>()
    };
    let day = |dice: &mut Dice| MonthDay { month: 1 + dice.below(12) as u8, day: 1 + dice.below(28) as u8 };
    let mut rates = Vec::new();
    for _ in 0..dice.below(5) {
        let days = dice.chance(0.5).then(|| (day(dice), day(dice)));
        let of_week = [DaysOfWeek::All, DaysOfWeek::Weekdays, DaysOfWeek::Weekends][dice.below(3)];
        let (from, to) = (dice.below(24) as u8, dice.below(24) as u8);
        let hours = dice.chance(0.7).then_some(ClockHours { from, to, days: of_week });
        rates.push(Rate { name: None, days, hours, tiers: tiers(dice) });
    }
    rates.push(Rate { tiers: tiers(dice), ..Rate::flat(0.0) });
    let rider = |charge| Rider { name: "r".into(), charge };
    let spike = |dice: &mut Dice| Spike { name: "s".into(), first: day(dice), last: day(dice), times: 1.7 };
    FuelPrice {
        rates,
        fixed_per_month: dice.real(0.0, 20.0),
        spikes: (0..dice.below(3)).map(|_| spike(dice)).collect(),
        holidays: (0..dice.below(4)).map(|_| day(dice)).collect(),
        demand_per_kw: if dice.chance(0.5) { dice.real(0.0, 9.0) } else { 0.0 },
        riders: vec![rider(RiderCharge::PerKwh(-0.003)), rider(RiderCharge::Share(0.08))],
        tax: dice.real(0.0, 0.2),
        ..FuelPrice::flat(FuelId::ELECTRICITY, 0.0)
    }
}

/// A bill reckoned from the use of all hours of a month, by plain loops over small steps of energy.
fn plain_bill(price: &FuelPrice, hours: &[(Stamp, f64)]) -> f64 {
    let within = |first: MonthDay, last: MonthDay, s: &Stamp| {
        let number = |m: u8, d: u8| u16::from(m) * 40 + u16::from(d);
        let (a, b, x) =
            (number(first.month, first.day), number(last.month, last.day), number(s.month, s.day));
        if a <= b { (a..=b).contains(&x) } else { x >= a || x <= b }
    };
    let (mut used, mut energy, mut kwh, mut largest) = (0.0, 0.0, 0.0, 0.0_f64);
    for (s, amount) in hours {
        let weekend = s.weekday > 4 || price.holidays.iter().any(|h| (h.month, h.day) == (s.month, s.day));
        let rate = price.rates.iter().find(|r| {
            let days = r.days.is_none_or(|(a, b)| within(a, b, s));
            days && r.hours.is_none_or(|h| {
                let mut clock = usize::from(h.from);
                let mut all = vec![clock];
                while (clock + 1) % 24 != usize::from(h.to) {
                    clock = (clock + 1) % 24;
                    all.push(clock);
                }
                let day = match h.days {
                    DaysOfWeek::All => true,
                    DaysOfWeek::Weekdays => !weekend,
                    DaysOfWeek::Weekends => weekend,
                };
                day && all.contains(&usize::from(s.hour))
            })
        });
        let mut times = 1.0;
        for spike in price.spikes.iter().filter(|spike| within(spike.first, spike.last, s)) {
            times *= spike.times;
        }
        // Up to each limit in turn.
        let mut left = *amount;
        for tier in &rate.unwrap().tiers {
            let here = left.min((tier.up_to_kwh - used).max(0.0));
            energy += here * tier.per_kwh * times;
            used += here;
            left -= here;
        }
        kwh += amount;
        largest = largest.max(*amount);
    }
    let riders = kwh * -0.003 + energy * 0.08;
    (price.fixed_per_month + energy + riders + largest * price.demand_per_kw) * (1.0 + price.tax)
}

#[test]
fn the_lines_of_any_tariff_sum_to_the_bill_of_the_whole_use() {
    for seed in 0..40 {
        let mut dice = Dice::new(seed);
        let price = any_price(&mut dice);
        let calendar = Calendar::of_one_year(2023 + dice.below(2) as i32, 8760, -5.0, NEW_YORK);
        let mut energy = EnergyByHour::new(Fuels::built_in().unwrap().count(), 8760);
        let mut whole = vec![0.0; 8760];
        for end_use in EndUse::DRAWING {
            let share = dice.real(0.0, 1.0);
            for (hour, sum) in whole.iter_mut().enumerate().filter(|_| share > 0.3) {
                let kwh = if dice.chance(share) { dice.real(0.0, 2.0) } else { 0.0 };
                energy.add(FuelId::ELECTRICITY, end_use, hour, kwh);
                *sum += kwh;
            }
        }
        let ledger = billed(&energy, calendar.stamps(), &Prices(vec![price.clone()]));
        for month in 1..=12 {
            let hours = calendar.stamps().iter().zip(&whole).filter(|(s, _)| s.month == month);
            let hours: Vec<_> = hours.map(|(s, kwh)| (*s, *kwh)).collect();
            let (ours, plain) = (ledger.sum(|p| p.month == Some(month)), plain_bill(&price, &hours));
            assert!(
                (ours - plain).abs() < 1e-9 * (1.0 + plain.abs()),
                "seed {seed}, {month}: {ours} {plain}"
            );
        }
        let lines: f64 = ledger.bills().iter().map(|line| line.whole.amount).sum();
        assert!((lines - ledger.total()).abs() < 1e-8, "seed {seed}");
    }
}

#[test]
fn a_year_without_hours_is_one_bill_with_twelve_fixed_charges() {
    let prices = read_prices("fixed = \"120 $/year\"\nprice = \"0.20 $/kWh\"\ntax = 0.05\n");
    let fuels = Fuels::built_in().unwrap();
    let energy = EnergyByHour::in_one(fuels.count(), &[(FuelId::ELECTRICITY, EndUse::Base, 1000.0)]);
    let accounts = accounts(&energy, None, &prices, &fuels, &Customer::default(), &EndUse::DRAWING);
    // Hand-worked: (120 + 200) × 1.05.
    assert!((Ledger::of(&one_bill(), &accounts).total() - 336.0).abs() < 1e-9);
}

const HEATING_RATE: &str = r#"
fixed = "10 $/month"
price = "0.20 $/kWh"
[prices.electricity.heating]
fixed = "4 $/month"
price = "0.10 $/kWh"
interrupted = [{ from = "17:00", to = "21:00" }]
"#;

fn heating_rate(interrupted: bool) -> Comparison {
    let line = "interrupted = [{ from = \"17:00\", to = \"21:00\" }]\n";
    let text = with_electricity(&HEATING_RATE.replace(line, if interrupted { line } else { "" }));
    compare(&job(&text, &[]), &chicago()).unwrap()
}

fn option<'a>(c: &'a Comparison, name: &str) -> &'a OptionResult {
    c.options.iter().find(|o| o.design.name == name).unwrap()
}

#[test]
fn a_heating_rate_charges_heat_alone_and_only_those_who_heat_with_electricity() {
    let c = heating_rate(false);
    for o in &c.options {
        let of = |p: &Posting| p.fuel == FuelId::ELECTRICITY && p.heating_meter;
        assert!(
            o.ledger
                .postings
                .iter()
                .all(|p| !of(p) || p.end_use.is_heating() || p.end_use == EndUse::FixedCharge)
        );
        // Hand-worked: both meters' fixed charges; the studio wing heats with electricity in every option.
        assert_eq!(o.ledger.sum(|p| p.end_use == EndUse::FixedCharge), 12.0 * 14.0, "{}", o.design.name);
        let heat = o.ledger.postings.iter().filter(|p| p.end_use == EndUse::BackupHeat);
        assert!(heat.clone().all(|p| p.heating_meter && p.price == 0.10));
    }
}

#[test]
fn an_interruptible_rate_switches_heat_pumps_off_and_backup_carries() {
    let (without, c) = (heating_rate(false), heating_rate(true));
    let propane = c.fuels.find("propane").unwrap();
    let gallons = |c: &Comparison| option(c, "Heat pump and propane").ledger.quantity(propane);
    assert!(gallons(&c) > 1.5 * gallons(&without), "{} {}", gallons(&c), gallons(&without));
    let strips = option(&c, "Heat pumps with strips");
    assert!(strips.backup_heat_kwh() > 5.0 * option(&without, "Heat pumps with strips").backup_heat_kwh());
    assert!(strips.ledger.postings.iter().all(|p| p.end_use != EndUse::BackupHeat || !p.heating_meter));
    assert!(option(&c, "Heat pumps alone").hours_not_kept_warm() > 500);
    let run = run_of(&c);
    let plan = laid(&c.setting(), &strips.design, &run);
    assert_ne!(plan, plan_of(&c, 0, &run));
    let mut trace = Trace::default();
    let mut state = OptionState::at_set_point(&plan);
    advance(&plan, 0..8760, &mut state, &mut FuelLimits::none(), &mut trace);
    let mut off = 0;
    for (stamp, zones) in run.calendar.stamps().iter().zip(trace.outcomes.chunks(2)) {
        if (17..21).contains(&stamp.hour) {
            off += 1;
            assert!(zones.iter().all(|z| z.heaters[0].heat == 0.0 && z.heaters[0].draw == 0.0));
        }
    }
    // Hand-worked: four hours on 365 days.
    assert_eq!(off, 4 * 365);
    assert!(strips.zones[0].off[0].interrupted == 4 * 365 && strips.zones[0].off[1].interrupted == 0);
}

#[test]
fn small_users_of_propane_pay_more_and_rent_is_due_by_the_month() {
    let heading = "[prices.propane]\n";
    let keys = "rent = \"96 $/year\"\ntax = 0.05\nby_yearly_use = [{ up_to = \"300 gal\", add = \"0.50 $/gal\" }, { up_to = \"600 gal\", add = \"0.20 $/gal\" }, { add = \"0 $/gal\" }]\n";
    let plain = compare(&job(&text(), &[]), &chicago()).unwrap();
    let c = compare(&job(&text().replace(heading, &format!("{heading}{keys}")), &[]), &chicago()).unwrap();
    let propane = c.fuels.find("propane").unwrap();
    let cost = |c: &Comparison, name: &str| option(c, name).ledger.sum(|p| p.fuel == propane);
    // Hand-worked from the gallons and the price without the new keys: 749 gal need no addition, 128 gal
    // pay 0.50 more; rent and tax come on top.
    for (name, add) in [("Propane furnace", 0.0), ("Heat pump and propane", 0.50)] {
        let gallons = option(&c, name).ledger.quantity(propane);
        let expected = 1.05 * (cost(&plain, name) + add * gallons + 96.0);
        assert!((cost(&c, name) - expected).abs() < 1e-9, "{name}: {gallons} gal");
        let rent = option(&c, name).ledger.postings.iter().filter(|p| p.reason == Reason::Rent);
        assert!(rent.clone().count() == 12 && rent.clone().all(|p| p.amount == 8.0));
    }
    assert_eq!(cost(&c, "Heat pumps with strips"), 0.0);
}

#[test]
fn heating_adds_the_bill_less_the_bill_of_all_other_uses() {
    let household = "[household]\ncooking = \"1000 kWh/year\"\nrange = \"range\"\n\n[[equipment]]\nname = \"range\"\nkind = \"range\"\nfuel = \"propane\"\nefficiency = 0.4\n\n";
    let keys = "[prices.propane]\nrent = \"96 $/year\"\nby_yearly_use = [{ up_to = \"300 gal\", add = \"0.50 $/gal\" }, { add = \"0 $/gal\" }]\n";
    let text = with_electricity("fixed = \"10 $/month\"\nprice = \"0.20 $/kWh\"");
    let text = text.replace("[prices.propane]\n", keys);
    let at = text.find("[[equipment]]").unwrap();
    let with_range = format!("{}{household}{}", &text[..at], &text[at..]);
    let charged = |o: &OptionResult| o.ledger.sum(|p| p.end_use.is_heating());
    // Without a range on propane, the tank is there for heat alone, so its rent is what heating adds.
    let c = compare(&job(&text, &[]), &chicago()).unwrap();
    let furnace = option(&c, "Propane furnace");
    assert!((furnace.heating_adds - charged(furnace) - 96.0).abs() < 1e-9);
    let strips = option(&c, "Heat pumps with strips");
    assert!((strips.heating_adds - charged(strips)).abs() < 1e-9);
    // With one, rent is due anyway, and without heat the range alone would pay 0.50 more for each gallon.
    let c = compare(&job(&with_range, &[]), &chicago()).unwrap();
    let furnace = option(&c, "Propane furnace");
    let propane = c.fuels.find("propane").unwrap();
    let of_range =
        furnace.ledger.postings.iter().filter(|p| p.fuel == propane && p.end_use == EndUse::Cooking);
    let gallons: f64 = of_range.filter(|p| p.reason.is_energy()).map(|p| p.quantity).sum();
    assert!(gallons > 90.0, "{gallons}");
    assert!((furnace.heating_adds - (charged(furnace) - 0.50 * gallons)).abs() < 1e-9);
}

/// What the heat pump of the main zone drew, and whether the meter was in its second tier.
struct PumpByTier<'a> {
    stamps: &'a [Stamp],
    month: u8,
    to_date_kwh: f64,
    /// Hours with need, by tier, and those of them in which the heat pump ran.
    hours: [(usize, usize); 2],
    second: bool,
}

impl Sink for PumpByTier<'_> {
    fn take(&mut self, record: &ZoneRecord<'_>) {
        let month = self.stamps[record.hour].month;
        if month != self.month {
            (self.month, self.to_date_kwh) = (month, 0.0);
        }
        // Both zones of an hour are charged after what the hours before it used.
        if record.zone == 0 {
            self.second = self.to_date_kwh >= 400.0;
            let (all, ran) = &mut self.hours[usize::from(self.second)];
            *all += usize::from(record.outcome.need > 0.0);
            *ran += usize::from(record.outcome.heaters[0].heat > 0.0);
        }
        for (heater, output) in record.plan.heaters.iter().zip(&record.outcome.heaters) {
            let electric = heater.fuel == FuelId::ELECTRICITY;
            self.to_date_kwh += output.side + if electric { output.draw } else { 0.0 };
        }
        let cooler = record.outcome.cooler;
        self.to_date_kwh += cooler.draw + cooler.side + record.standby_kwh;
    }
}

#[test]
fn where_heaters_take_turns_by_cost_the_months_use_decides_too() {
    let tiers = "tier = [{ up_to = \"400 kWh\", price = \"0.05 $/kWh\" }, { price = \"2 $/kWh\" }]";
    let text = with_electricity(tiers).replace("sharing = \"in_time\"", "changeover = \"cost\" #");
    let text = text.replace("compressor_lockout = \"15 degF\"", "#");
    let c = compare(&job(&text, &[]), &chicago()).unwrap();
    let run = run_of(&c);
    let design = &option(&c, "Heat pump and propane").design;
    let plan = laid(&c.setting(), design, &run);
    let stamps = run.calendar.stamps();
    let mut sink = PumpByTier { stamps, month: 0, to_date_kwh: 0.0, hours: [(0, 0); 2], second: false };
    let mut state = OptionState::at_set_point(&plan);
    advance(&plan, 0..8760, &mut state, &mut FuelLimits::none(), &mut sink);
    // Hand-worked: at 5 cents the heat pump is cheaper than propane even at COP 1.5 (3.3 cents against 6.6
    // and more), at 2 dollars never.
    let [(cheap, ran_cheap), (dear, ran_dear)] = sink.hours;
    assert!(cheap > 500 && ran_cheap == cheap, "{:?}", sink.hours);
    assert!(dear > 500 && ran_dear == 0, "{:?}", sink.hours);
}

#[test]
fn spikes_with_days_in_common_are_told_to_multiply() {
    let second = |from: &str, to: &str| {
        let text = crate::demo_job::text();
        let spike = format!(
            "[[prices.propane.spike]]\nname = \"second\"\nfrom = \"{from}\"\nto = \"{to}\"\ntimes = 1.5\n\n"
        );
        let at = text.find("[prices.propane.moves]").unwrap();
        let text = format!("{}{spike}{}", &text[..at], &text[at..]);
        let c = compare(&crate::demo_job::job(&text, &[]), &crate::demo_job::chicago()).unwrap();
        let told = c.assumptions.0.into_iter().filter(|a| a.key == "prices.propane.spike");
        told.map(|a| a.value).collect::<Vec<_>>()
    };
    // The demonstration's own is × 2 from 10 January to 28 February: 2 × 1.5 = 3 on days of both.
    assert_eq!(second("02-28", "03-10"), ["times 3 on the days of both"]);
    assert_eq!(second("12-20", "01-10"), ["times 3 on the days of both"]);
    assert_eq!(second("03-01", "01-09"), Vec::<String>::new());
}
