//! At which price two options cost the same: sentences and tables.
//!
//! Start at [`sentences`].

use super::figures::{grouped, money};
use super::model::{Cell, Column, Table};
use crate::comparison::Comparison;
use crate::fuel::{Fuel, FuelId};
use crate::study::crossing::Crossing;
use crate::study::tipping::{FACTORS, is_told_of_market};
use crate::study::{PriceMap, Tipping, TippingPrice};

fn fuel(c: &Comparison, id: FuelId) -> Option<&Fuel> {
    c.fuels.get(id)
}

/// A fuel's name, as sentences have it.
pub fn fuel_name(c: &Comparison, id: FuelId) -> &str {
    fuel(c, id).map_or("", |fuel| &fuel.name)
}

/// The unit that prices are for, in a word: `gallon`, `kWh`.
pub fn unit_word(c: &Comparison, id: FuelId) -> &str {
    fuel(c, id).map_or("", Fuel::unit_word)
}

/// A price of a selling unit: three decimals for what costs less than a unit of the currency.
pub fn price(c: &Comparison, amount: f64) -> String {
    format!("{}{}", c.currency, grouped(amount, decimals(amount)))
}

fn decimals(amount: f64) -> usize {
    if amount.abs() < 1.0 { 3 } else { 2 }
}

fn named(c: &Comparison, option: usize) -> String {
    let name = c.options.get(option).map_or("", |option| option.design.name.as_str());
    format!("\u{201c}{name}\u{201d}")
}

/// One sentence or more for each price.
pub fn sentences(c: &Comparison, tipping: &Tipping) -> Vec<String> {
    tipping.prices.iter().map(|price| sentence(c, tipping, price)).collect()
}

/// The sentence for the first page: of the fuel that is not electricity, where there is one.
pub fn first_sentence(c: &Comparison, tipping: &Tipping) -> Option<String> {
    tipping.prices.first().map(|price| sentence(c, tipping, price))
}

fn sentence(c: &Comparison, tipping: &Tipping, p: &TippingPrice) -> String {
    let [first, second] = tipping.options.map(|option| named(c, option));
    let (name, unit) = (fuel_name(c, p.fuel), unit_word(c, p.fuel));
    match p.found.as_slice() {
        [] => none(c, tipping, p),
        [one] if let Some(pair) = one.meets() => format!(
            "{first} and {second} cost the same a year with {name} at about {} a {unit}{}; today it is {} on the \
             mean of {}.{}",
            price(c, pair.at * p.today),
            load_words(c, tipping, p),
            price(c, p.today),
            match is_told_of_market(c, tipping.options, p.fuel) {
                true => "the market\u{2019}s days",
                false => "what is burned, energy alone",
            },
            sides(c, p)
        ),
        [one] => format!("{}{}", other_kind(c, [&first, &second], p, one), sides(c, p)),
        several => {
            let at: Vec<String> = several.iter().map(|one| place(c, p, one)).collect();
            let between: Vec<String> = p.cheaper.iter().map(|option| cheaper(c, *option)).collect();
            format!(
                "{first} and {second} cost the same a year at {} prices of {name}: {} a {unit}. From the lowest \
                 price to the highest, what costs less is {}.",
                several.len(),
                at.join(" and "),
                between.join(", then ")
            )
        }
    }
}

fn cheaper(c: &Comparison, option: Option<usize>) -> String {
    option.map_or_else(|| "neither".into(), |option| named(c, option))
}

fn place(c: &Comparison, p: &TippingPrice, one: &Crossing) -> String {
    let (from, to) = one.span();
    match one {
        Crossing::Stretch(..) => format!("{} to {}", price(c, from * p.today), price(c, to * p.today)),
        _ => price(c, from * p.today),
    }
}

fn none(c: &Comparison, tipping: &Tipping, p: &TippingPrice) -> String {
    let [first, second] = tipping.options;
    let least = p.cheaper.first().copied().flatten();
    let name = fuel_name(c, p.fuel);
    let (low, high) = FACTORS;
    let Some(least) = least else {
        return format!("{} and {} cost the same whatever {name} costs.", named(c, first), named(c, second));
    };
    let dearer = if least == first { second } else { first };
    format!(
        "There is no price of {name} from {low} to {high} times today\u{2019}s at which they cost the same: {} \
         costs less a year than {} throughout.",
        named(c, least),
        named(c, dearer)
    )
}

/// A jump or a stretch.
fn other_kind(c: &Comparison, [first, second]: [&String; 2], p: &TippingPrice, one: &Crossing) -> String {
    let (name, unit) = (fuel_name(c, p.fuel), unit_word(c, p.fuel));
    match one {
        Crossing::Jump(below, above) => {
            let costs = |costs: [f64; 2]| costs.map(|cost| money(&c.currency, cost)).join(" and ");
            format!(
                "With {name} at about {} a {unit} the costs of {first} and {second} jump past each other, from {} \
                 a year just below to {} just above.",
                price(c, above.at * p.today),
                costs(below.costs),
                costs(above.costs)
            )
        }
        _ => {
            format!("{first} and {second} cost the same a year with {name} at {} a {unit}.", place(c, p, one))
        }
    }
}

/// What a load that is off does to the price.
fn load_words(c: &Comparison, tipping: &Tipping, p: &TippingPrice) -> String {
    let share = grouped(100.0 * tipping.load_uncertainty, 0);
    match p.range() {
        Some((low, high)) if price(c, low) == price(c, high) => {
            format!(" (whatever the loads, {share} % lower or higher)")
        }
        Some((low, high)) => format!(
            " ({}\u{2013}{} with loads {share} % lower or higher)",
            price(c, low),
            grouped(high, decimals(low))
        ),
        None => format!(" (with loads {share} % lower or higher there may be no such price, or several)"),
    }
}

/// Which costs less below and above the one place.
fn sides(c: &Comparison, p: &TippingPrice) -> String {
    match p.cheaper.as_slice() {
        [Some(below), Some(above)] if below != above => {
            format!(" Below that {} costs less, above it {}.", named(c, *below), named(c, *above))
        }
        [Some(both), Some(_)] => format!(" On both sides {} costs less.", named(c, *both)),
        _ => String::new(),
    }
}

/// Every place at which they cost the same.
pub fn table(c: &Comparison, tipping: &Tipping) -> Table {
    let [first, second] = tipping.options.map(|option| named(c, option));
    Table {
        name: "tipping_price".into(),
        heading: format!("At which price do {first} and {second} cost the same a year?"),
        columns: vec![
            Column::words("Price of", "fuel"),
            Column::words("a", "unit"),
            Column::numbers("Today, mean", "price_today"),
            Column::numbers("The same at", "price"),
            Column::numbers("Least, by load", "price_low"),
            Column::numbers("Most, by load", "price_high"),
            Column::numbers("First costs then", "yearly_cost_first"),
            Column::numbers("Second costs then", "yearly_cost_second"),
            Column::words("Less below", "less_below"),
            Column::words("Less above", "less_above"),
        ],
        rows: tipping.prices.iter().flat_map(|price| rows(c, price)).collect(),
        remark: Some(remark(c, tipping)),
    }
}

fn rows(c: &Comparison, p: &TippingPrice) -> Vec<Vec<Cell>> {
    let amount = |value: f64| Cell::Number { value, shown: price(c, value) };
    let cost = |value: f64| Cell::Number { value, shown: money(&c.currency, value) };
    let words = |option: Option<&Option<usize>>| match option {
        Some(Some(option)) => Cell::text(named(c, *option)),
        _ => Cell::Missing,
    };
    let fuel = || vec![Cell::text(fuel_name(c, p.fuel)), Cell::text(unit_word(c, p.fuel)), amount(p.today)];
    if p.found.is_empty() {
        let mut row = fuel();
        row.extend([const { Cell::Missing }; 5]);
        row.extend([words(p.cheaper.first()), words(p.cheaper.first())]);
        return vec![row];
    }
    let range = p.range();
    let row = |(i, one): (usize, &Crossing)| {
        let sides = match one {
            Crossing::Same(pair) => vec![*pair],
            Crossing::Jump(from, to) | Crossing::Stretch(from, to) => vec![*from, *to],
        };
        let row = |pair: crate::study::crossing::Pair| {
            let mut row = fuel();
            row.push(amount(pair.at * p.today));
            row.push(range.map_or(Cell::Missing, |(low, _)| amount(low)));
            row.push(range.map_or(Cell::Missing, |(_, high)| amount(high)));
            row.extend(pair.costs.map(cost));
            row.extend([words(p.cheaper.get(i)), words(p.cheaper.get(i + 1))]);
            row
        };
        sides.into_iter().map(row).collect::<Vec<_>>()
    };
    p.found.iter().enumerate().flat_map(row).collect()
}

fn remark(c: &Comparison, tipping: &Tipping) -> String {
    let share = grouped(100.0 * tipping.load_uncertainty, 0);
    format!(
        "First: {}; second: {}. A price moves in all its months, hours and steps alike; fixed charges, fees and \
         rents stay. The mean is of what the one of them burns that burns more of it, energy alone, without riders and tax; where \
         a contract sets what is paid, that of the market\u{2019}s days. By load: the same price list, told so, with \
         every design load {share} % lower and {share} % higher. –: no one such price.",
        named(c, tipping.options[0]),
        named(c, tipping.options[1])
    )
}

/// The field of both prices, for files.
pub fn map_table(c: &Comparison, map: &PriceMap) -> Table {
    let [across, up] = map.fuels;
    let key = |id: FuelId| format!("{}_price", fuel(c, id).map_or("", |fuel| &fuel.id));
    let rows = map.up.iter().zip(&map.costs_more).flat_map(|(up, row)| {
        let cell = move |(across, more): (&f64, &f64)| {
            vec![Cell::number(*across, 4), Cell::number(*up, 4), Cell::number(*more, 2)]
        };
        map.across.iter().zip(row).map(cell)
    });
    Table {
        name: "price_map".into(),
        heading: "How much more the first option costs a year at two prices".into(),
        columns: vec![
            Column::numbers(fuel_name(c, across), key(across)),
            Column::numbers(fuel_name(c, up), key(up)),
            Column::numbers("First costs more by", "first_costs_more_by"),
        ],
        rows: rows.collect(),
        remark: None,
    }
}
