//! The forms in which a job gives the price of a year, against hand-worked months.
//!
//! All prices are invented. Start at the test names.

use crate::tariffs::read_prices;
use winterledger::calendar::Stamp;
use winterledger::fuel::FuelId;

fn by_month(text: &str) -> [f64; 12] {
    let prices = read_prices(text);
    let price = prices.of(FuelId::ELECTRICITY).unwrap();
    std::array::from_fn(|month| {
        let on = |day| price.on(Stamp { month: month as u8 + 1, day, hour: 12, weekday: 0 }).per_kwh();
        assert_eq!(on(1), on(28));
        on(1)
    })
}

/// Hand-worked: a quarter of the difference each month from September to January and back until May.
#[test]
fn a_summer_price_and_a_winter_peak_make_twelve_prices() {
    let found = by_month("price_by_season = { summer = \"0.10 $/kWh\", winter_peak = \"0.20 $/kWh\" }");
    let expected = [0.2, 0.175, 0.15, 0.125, 0.1, 0.1, 0.1, 0.1, 0.1, 0.125, 0.15, 0.175];
    for (found, expected) in found.into_iter().zip(expected) {
        assert!((found - expected).abs() < 1e-12, "{found} {expected}");
    }
}

#[test]
fn the_same_twelve_prices_typed_month_by_month_are_the_same_year() {
    let names = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
    let prices =
        ["0.2", "0.175", "0.15", "0.125", "0.1", "0.1", "0.1", "0.1", "0.1", "0.125", "0.15", "0.175"];
    let typed: Vec<String> =
        names.iter().zip(prices).map(|(name, price)| format!("{name} = \"{price} $/kWh\"")).collect();
    let months = by_month(&format!("price_by_month = {{ {} }}", typed.join(", ")));
    let season = by_month("price_by_season = { summer = \"0.10 $/kWh\", winter_peak = \"0.20 $/kWh\" }");
    for (month, season) in months.into_iter().zip(season) {
        assert!((month - season).abs() < 1e-12, "{month} {season}");
    }
}
