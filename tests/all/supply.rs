//! A store by itself, ten gallons a day: days and gallons worked by hand, terms of contract one by one.
//! Here one kWh stands for one gallon, so that the numbers are those of the hand.
//!
//! Start at [`tank`] and [`winter`].

use winterledger::calendar::{Calendar, MonthDay};
use winterledger::prices::{FuelPrice, YearlyUse};
use winterledger::simulation::EndUse;
use winterledger::supply::book::{Book, StoreYear, through_days};
use winterledger::supply::charge::Charge;
use winterledger::supply::contract::{Contract, Fees, LeftOver, Orders, PriceDay, PricePlan};
use winterledger::supply::cost::{SupplyLine, lines, mean_price};
use winterledger::supply::fuel_use::ByUse;
use winterledger::supply::tank::{Placement, Tank};
use winterledger::supply::{MarketDays, Store};

const DAYS: usize = 180;
const A_DAY: f64 = 10.0;

/// 500 gallons of water, filled to 400, of which 25 cannot be used; ordered at 150, seven days ahead.
pub(crate) fn tank() -> Store {
    let fuels = winterledger::fuel::Fuels::built_in().unwrap();
    Store {
        name: "tank".into(),
        fuel: fuels.find("propane").unwrap(),
        tank: Tank {
            capacity_kwh: 500.0,
            fill_limit: 0.8,
            reserve: 0.05,
            placement: Placement::Buried,
            shape: None,
        },
        contract: Contract {
            orders: Orders::WillCall,
            reorder_kwh: 150.0,
            lead_days: 7,
            cold_lead_days: 30,
            cold_lead_stated: true,
            leased: false,
            price: PricePlan::Market,
            price_day: PriceDay::Order,
            fees: Fees::default(),
            minimum_drop_kwh: 0.0,
            emergency_days: None,
            relight_days: 0,
            last_year_kwh: None,
            budget_plan: false,
        },
        start_kwh: 400.0,
    }
}

/// $2.50, doubled on the days 60 to 75 counted from 1; the days are those of 1 July on.
fn market() -> MarketDays {
    let price = |day: usize| if (60..=75).contains(&(day + 1)) { 5.0 } else { 2.5 };
    let date = |day: usize| {
        let (month, day) = if day < 31 { (7, day + 1) } else { (8, day - 30) };
        MonthDay { month, day: u8::try_from(day.min(31)).unwrap() }
    };
    MarketDays { dates: (0..DAYS).map(date).collect(), per_kwh: (0..DAYS).map(price).collect() }
}

fn winter(store: &Store) -> StoreYear {
    let market = market();
    let book = Book::new(store, &market, store.start_kwh);
    through_days(book, DAYS, |_| A_DAY, |_| store.contract.lead_days)
}

/// What the winter costs by line; all of it burned for space heating.
fn cost(store: &Store, year: &StoreYear) -> Vec<SupplyLine> {
    let mut day = ByUse::default();
    day[EndUse::SpaceHeating.place()] = A_DAY;
    let market = market();
    lines(store, year, &market, &[day; DAYS], mean_price(store, year, &market))
}

fn sum(lines: &[SupplyLine], which: impl Fn(Charge) -> bool) -> f64 {
    lines.iter().filter(|line| which(line.charge)).map(SupplyLine::amount).sum()
}

/// Days counted from 1.
fn days(year: &StoreYear) -> (Vec<usize>, Vec<usize>) {
    year.deliveries.iter().map(|d| (d.ordered_on + 1, d.day + 1)).unzip()
}

#[test]
fn a_will_call_tank_is_ordered_for_and_filled_on_the_days_worked_by_hand() {
    // Hand-worked: deliver, burn, look; arrival at the start of day o + 7.
    let year = winter(&tank());
    assert_eq!(days(&year), (vec![25, 56, 87, 118, 149], vec![32, 63, 94, 125, 156]));
    assert!(year.deliveries.iter().all(|d| d.kwh == 310.0 && d.before_kwh == 90.0));
    let told = (year.bought_kwh(), year.burned_kwh, year.end_kwh(), year.lowest_kwh());
    assert_eq!(told, (1550.0, 1800.0, 150.0, 90.0));
    assert_eq!((year.run_outs, year.dry_hours(), year.levels_kwh.len()), (0, 0.0, DAYS));
}

#[test]
fn the_price_of_the_order_and_that_of_the_delivery_differ_by_what_the_hand_says() {
    // Hand-worked: the delivery of day 63 was ordered on day 56, before the price doubled.
    for (price_day, paid) in [(PriceDay::Order, 3875.0), (PriceDay::Delivery, 4650.0)] {
        let mut store = tank();
        store.contract.price_day = price_day;
        let year = winter(&store);
        assert_eq!(year.paid(), paid);
        let lines = cost(&store, &year);
        assert!((sum(&lines, |c| c == Charge::Delivered) - paid).abs() < 1e-9);
        // 250 gallons were taken out of the store, worth the mean price paid.
        let stock = sum(&lines, |c| c == Charge::StockChange);
        assert!((stock - 250.0 * paid / 1550.0).abs() < 1e-9);
    }
}

/// Expected chances, run-outs and dry hours where each order's lead is 7 days, or 20 with chance 0.1:
/// every one of the 2⁶ winters, weighed.
#[test]
fn a_lead_of_one_week_or_three_runs_dry_as_often_as_the_closed_form_says() {
    let store = tank();
    let market = market();
    let (mut chance, mut run_outs, mut dry_hours) = (0.0, 0.0, 0.0);
    for pattern in 0..64_u32 {
        let late = |order: u32| pattern >> order & 1 == 1;
        let mut orders = 0;
        let lead = |_| {
            orders += 1;
            if late(orders - 1) { 20 } else { 7 }
        };
        let year = through_days(Book::new(&store, &market, 400.0), DAYS, |_| A_DAY, lead);
        assert!(orders <= 6);
        let weight: f64 = (0..6).map(|order| if late(order) { 0.1 } else { 0.9 }).product();
        chance += weight * f64::from(u8::from(year.run_outs > 0));
        run_outs += weight * year.run_outs as f64;
        dry_hours += weight * year.dry_hours();
        // Fuel is neither made nor lost, and what cannot be used stays.
        let left = year.start_kwh + year.bought_kwh() - year.burned_kwh - year.end_kwh();
        assert!(left.abs() < 1e-9 && year.lowest_kwh() >= 25.0);
    }
    // Hand-worked: 1 − 0.9⁵; 0.494770 and 76.4843 h by an independent enumeration.
    assert!((chance - 0.40951).abs() < 1e-12, "{chance}");
    assert!((run_outs - 0.494_770).abs() < 5e-7, "{run_outs}");
    assert!((dry_hours - 76.484_3).abs() < 5e-5, "{dry_hours}");
}

#[test]
fn a_late_truck_leaves_the_tank_dry_for_156_hours_and_a_leak_test_adds_its_days() {
    // Hand-worked: of 125 usable gallons 120 are burned by day 37, the rest in 12 h of day 38; then
    // six days until the truck comes on day 45.
    let mut store = tank();
    store.contract.lead_days = 20;
    store.contract.fees = Fees { leak_test: 150.0, ..Fees::default() };
    let market = market();
    let run = |store: &Store| through_days(Book::new(store, &market, 400.0), 60, |_| A_DAY, |_| 20);
    let year = run(&store);
    assert_eq!((year.run_outs, year.dry.first(), year.dry_hours()), (1, Some(&(37, 12.0)), 156.0));
    assert!(year.deliveries[0].leak_test && year.deliveries[0].kwh == 375.0);
    assert_eq!(sum(&cost(&store, &year), |c| c == Charge::LeakTest), 150.0);
    store.contract.relight_days = 2;
    let waited = run(&store);
    assert_eq!((waited.run_outs, waited.dry_hours()), (1, 156.0 + 48.0));
}

#[test]
fn an_emergency_delivery_comes_before_the_ordinary_one_and_costs_its_fee() {
    let mut store = tank();
    store.contract.lead_days = 20;
    store.contract.emergency_days = Some(2);
    store.contract.fees = Fees { emergency: 200.0, ..Fees::default() };
    let market = market();
    let year = through_days(Book::new(&store, &market, 400.0), 60, |_| A_DAY, |_| 20);
    // Dry from the middle of day 38, called that evening: 12 h and one day until day 40.
    assert_eq!((year.dry_hours(), year.deliveries[0].day + 1), (36.0, 40));
    assert!(year.deliveries[0].emergency);
    assert_eq!(sum(&cost(&store, &year), |c| c == Charge::Emergency), 200.0);
    // Whoever is guaranteed against run-outs pays neither.
    store.contract.orders = Orders::Automatic { forecast_error: 0.0, guarantee: true };
    assert_eq!(sum(&cost(&store, &year), |c| matches!(c, Charge::Emergency | Charge::LeakTest)), 0.0);
}

#[test]
fn a_supplier_that_counts_too_little_comes_late() {
    // Hand-worked: with a tenth of the use uncounted, the evening on which 400 − 0.9·10·n ≤ 150 is the
    // 28th, not the 25th; three days later 90 − 0 ... 400 − 300 = 100 are left.
    let mut store = tank();
    store.contract.orders = Orders::Automatic { forecast_error: 0.1, guarantee: false };
    store.contract.lead_days = 3;
    let year = winter(&store);
    assert_eq!((year.deliveries[0].ordered_on + 1, year.deliveries[0].before_kwh), (28, 100.0));
}

#[test]
fn a_year_that_begins_low_begins_with_a_delivery() {
    let store = tank();
    let market = market();
    let year = through_days(Book::new(&store, &market, 25.0), DAYS, |_| A_DAY, |_| 7);
    assert_eq!((year.deliveries[0].day, year.deliveries[0].kwh, year.dry_hours()), (0, 375.0, 0.0));
}

#[test]
fn nobody_comes_for_less_than_the_least_delivery_unless_it_is_paid_for() {
    // Ordered at 350 of 400 filled, four days ahead: 90 would be delivered.
    let mut store = tank();
    (store.contract.reorder_kwh, store.contract.lead_days) = (350.0, 4);
    store.contract.minimum_drop_kwh = 100.0;
    let year = winter(&store);
    // The order waits until 100 fit in: the evening of day 10; then 130 fit on day 14.
    assert_eq!((year.deliveries[0].ordered_on + 1, year.deliveries[0].kwh), (10, 130.0));
    assert!(year.deliveries.iter().all(|d| !d.small));
    store.contract.fees.small_drop = Some(60.0);
    let year = winter(&store);
    assert_eq!((year.deliveries[0].ordered_on + 1, year.deliveries[0].kwh), (5, 80.0));
    let small = sum(&cost(&store, &year), |c| c == Charge::SmallDrop);
    assert_eq!(small, 60.0 * year.deliveries.len() as f64);
}

#[test]
fn the_level_at_which_it_is_really_ordered_is_that_of_the_book() {
    // Will-call: the gauge itself.
    assert_eq!(tank().ordered_at_kwh(), 150.0);
    // A supplier that counts a tenth of the use too little sees 150 at (150 − 0.1 · 400) / 0.9 = 122.2.
    let mut store = tank();
    store.contract.orders = Orders::Automatic { forecast_error: 0.1, guarantee: false };
    assert!((store.ordered_at_kwh() - 110.0 / 0.9).abs() < 1e-9);
    let ordered_on_levels = |store: &Store| -> Vec<f64> {
        let year = winter(store);
        year.deliveries.iter().map(|d| year.levels_kwh[d.ordered_on]).collect()
    };
    let levels = ordered_on_levels(&store);
    // Ten are burned a day, so the first evening at or below it is less than ten below it.
    assert!(levels.iter().all(|level| *level <= 122.3 && *level > 112.2), "{levels:?}");
    // A least delivery of 300 finds room at 400 − 300 = 100; paid for, it need not.
    let mut store = tank();
    store.contract.minimum_drop_kwh = 300.0;
    assert_eq!((store.ordered_at_kwh(), store.room_for_drop_kwh()), (100.0, Some(100.0)));
    assert!(ordered_on_levels(&store).iter().all(|level| *level == 100.0));
    store.contract.fees.small_drop = Some(60.0);
    assert_eq!((store.ordered_at_kwh(), store.room_for_drop_kwh()), (150.0, None));
    assert!(ordered_on_levels(&store).iter().all(|level| *level == 150.0));
}

#[test]
fn whoever_has_run_dry_calls_whatever_the_supplier_reckons() {
    // Reckoned, 40 of 500 are left when it is dry at 25: 25 + 0.1 · 375 = 62.5 is above the reorder level.
    let mut store = tank();
    store.contract.orders = Orders::Automatic { forecast_error: 0.1, guarantee: false };
    store.contract.reorder_kwh = 50.0;
    let year = winter(&store);
    // 375 last 37.5 days; the call of the evening of day 38 brings the truck at the start of day 45.
    assert_eq!((year.run_outs > 1, days(&year).0[0], days(&year).1[0]), (true, 38, 45));
}

#[test]
fn a_year_that_begins_low_waits_until_the_least_delivery_finds_room() {
    let mut store = tank();
    (store.start_kwh, store.contract.reorder_kwh) = (300.0, 300.0);
    store.contract.minimum_drop_kwh = 150.0;
    // 100 would fit on the first day; 150 do when 250 are left, on the evening of day 5.
    let year = winter(&store);
    assert_eq!((days(&year).0[0], days(&year).1[0]), (5, 12));
}

#[test]
fn what_is_beyond_the_pre_bought_has_no_fee_of_the_plan_and_what_is_carried_was_paid() {
    let mut store = tank();
    store.contract.price = PricePlan::PreBuy { per_kwh: 2.0, kwh: 500.0, left_over: LeftOver::Carry };
    store.contract.fees.plan_per_kwh = 0.10;
    let year = winter(&store);
    // Deliveries of 310 on days 32, 63, 94, …: 310 and 190 of the second are of the plan, $2.10; the market asks
    // $2.50, and $5.00 on day 56 on which the second was ordered.
    assert!((year.deliveries[0].amount - 310.0 * 2.10).abs() < 1e-9);
    assert!((year.deliveries[1].amount - (190.0 * 2.10 + 120.0 * 2.50)).abs() < 1e-9);
}

#[test]
fn a_summer_fill_is_ordered_on_its_day_and_the_gauge_does_the_rest() {
    let mut store = tank();
    store.contract.orders = Orders::SummerFill { on: MonthDay { month: 7, day: 15 } };
    let year = winter(&store);
    // Ordered on the 15th, delivered on the 22nd of July: 21 days of 10 gallons fit in.
    assert_eq!((year.deliveries[0].ordered_on + 1, year.deliveries[0].kwh), (15, 210.0));
    assert_eq!(year.deliveries[1].ordered_on + 1, 21 + 25);
}

#[test]
fn each_price_plan_asks_what_its_words_say() {
    let paid = |price: PricePlan, fee: f64| {
        let mut store = tank();
        (store.contract.price, store.contract.price_day) = (price, PriceDay::Delivery);
        store.contract.fees.plan_per_kwh = fee;
        let year = winter(&store);
        let lines = cost(&store, &year);
        (year.paid(), year.left_over_kwh, sum(&lines, |c| c == Charge::PreBoughtLost))
    };
    // Hand-worked, five deliveries of 310, the second at the doubled price.
    assert_eq!(paid(PricePlan::Fixed(2.25), 0.0).0, 1550.0 * 2.25);
    let near = |found: f64, expected: f64| assert!((found - expected).abs() < 1e-9, "{found} {expected}");
    near(paid(PricePlan::Cap(3.0), 0.1).0, 1240.0 * 2.6 + 310.0 * 3.1);
    let pre_buy = |kwh, left_over| PricePlan::PreBuy { per_kwh: 2.0, kwh, left_over };
    // 500 pre-bought: the first 310, then 190; the other 120 of the second at 5.
    near(paid(pre_buy(500.0, LeftOver::Lose), 0.0).0, 500.0 * 2.0 + 120.0 * 5.0 + 930.0 * 2.5);
    assert_eq!(paid(pre_buy(1600.0, LeftOver::Lose), 0.0), (3100.0, 50.0, 100.0));
    for left_over in [LeftOver::Refund, LeftOver::Carry] {
        assert_eq!(paid(pre_buy(1600.0, left_over), 0.0), (3100.0, 50.0, 0.0));
    }
}

#[test]
fn what_a_years_use_adds_and_taxes_are_in_the_price_of_the_day() {
    let fuel = tank().fuel;
    let step = |up_to_kwh, add_per_kwh| YearlyUse { up_to_kwh, add_per_kwh };
    let by_yearly_use = vec![step(300.0, 0.75), step(1000.0, 0.4), step(f64::INFINITY, 0.0)];
    let price = FuelPrice { by_yearly_use, tax: 0.1, ..FuelPrice::flat(fuel, 2.5) };
    let calendar = Calendar::of_one_year(2023, 8760, 0.0, None);
    // Hand-worked: (2.50 and what the step adds) × 1.1.
    for (yearly, asked) in [(120.0, 3.575), (300.0, 3.575), (999.0, 3.19), (1001.0, 2.75)] {
        let market = MarketDays::of_run(&calendar, &price, yearly);
        assert!((market.price(200) - asked).abs() < 1e-12, "{yearly}: {}", market.price(200));
    }
}

#[test]
fn a_small_user_pays_for_the_year() {
    let mut store = tank();
    store.contract.fees = Fees {
        low_use: Some((1801.0, 90.0)),
        rent: 84.0,
        set_and_pick_up: (400.0, 8.0),
        plan_a_year: 35.0,
        drop: 9.0,
        ..Fees::default()
    };
    let lines = cost(&store, &winter(&store));
    let of = |charge| sum(&lines, |c| c == charge);
    assert_eq!((of(Charge::LowUse), of(Charge::Rent), of(Charge::PricePlan)), (90.0, 84.0, 35.0));
    assert_eq!((of(Charge::SetAndPickUp(8.0)), of(Charge::Drop)), (50.0, 45.0));
    store.contract.fees.low_use = Some((1800.0, 90.0));
    let lines = cost(&store, &winter(&store));
    assert_eq!(sum(&lines, |c| c == Charge::LowUse), 0.0);
}

#[test]
fn a_delivery_is_posted_under_the_uses_that_drew_what_it_replaces() {
    let (store, market) = (tank(), market());
    let year = winter(&store);
    let mut days = [ByUse::default(); DAYS];
    for (i, day) in days.iter_mut().enumerate() {
        // Hot water alone until the first delivery, three quarters heating after it.
        let heating = if i < 31 { 0.0 } else { 7.5 };
        day[EndUse::SpaceHeating.place()] = heating;
        day[EndUse::HotWater.place()] = A_DAY - heating;
    }
    let lines = lines(&store, &year, &market, &days, 2.5);
    let gallons = |month: u8, end_use: EndUse| {
        let own = lines.iter().filter(|l| l.month == Some(month) && l.end_use == end_use);
        own.map(|l| l.quantity).sum::<f64>()
    };
    // All deliveries fall into August of the invented days: 310 of hot water, then four of both.
    assert!((gallons(8, EndUse::HotWater) - (310.0 + 310.0)).abs() < 1e-9);
    assert!((gallons(8, EndUse::SpaceHeating) - 930.0).abs() < 1e-9);
}
