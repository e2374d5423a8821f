//! What the moment costs, a line a fuel and use.
//!
//! Start at [`lines`].

use crate::comparison::Comparison;
use crate::comparison::working::Working;
use crate::report::figures::grouped;
use crate::report::wording::end_use;

/// Fuel by fuel, then all of it.
pub(super) fn lines(working: &Working, c: &Comparison) -> Vec<String> {
    let money = |amount: f64| format!("{}{}", c.currency, grouped(amount, 4));
    let (mut lines, mut parts) = (Vec::new(), Vec::new());
    for line in &working.cost {
        let Some(fuel) = c.fuels.get(line.fuel) else { continue };
        let (quantity, price) = (line.kwh / fuel.kwh_per_unit, line.price_per_kwh * fuel.kwh_per_unit);
        let amount = quantity * price;
        parts.push(amount);
        let dated = if line.on_the_mean {
            "what was paid on the mean of the year"
        } else {
            "that hour\u{2019}s price"
        };
        // A fuel that is sold by the kilowatt-hour needs no counting over.
        let sum = format!("{} kWh \u{d7} {}", grouped(line.kwh, 4), money(price));
        let (sum, counted) = match fuel.kwh_per_unit {
            1.0 => (sum, String::new()),
            per_unit => {
                let (unit, per_unit) = (&fuel.selling_unit, grouped(per_unit, 3));
                (
                    format!("{sum} / {per_unit} kWh"),
                    format!("{} {unit} of {per_unit} kWh each, at ", grouped(quantity, 4)),
                )
            }
        };
        lines.push(format!(
            "Cost of {} for {}: {sum} = {} ({counted}{dated}).",
            fuel.name,
            end_use(line.end_use),
            money(amount)
        ));
    }
    let total = money(parts.iter().sum());
    let sum = if parts.len() > 1 {
        let parts: Vec<_> = parts.iter().map(|amount| money(*amount)).collect();
        format!("{} = ", parts.join(" + "))
    } else {
        String::new()
    };
    lines.push(format!("Cost of the hour: {sum}{total}."));
    lines
}
