//! What is left of a pressure rating in a warm pipe.

use super::{Derating, Image, Material};

impl Image<'_> {
    /// What is left, Q15, of a pressure rating at a wall temperature in hundredths of 1 °F; `None` where pipe of the material is not
    /// rated any more. Material that the tables do not derate keeps all of it.
    #[must_use]
    pub fn derated(&self, material: Material, temperature: i32) -> Option<u16> {
        const WHOLE: u16 = 1 << 15;
        let rows = self.deratings.iter().map(Derating::from_bytes);
        let own = rows.filter(|row| row.material == material as u8);
        let mut before: Option<Derating> = None;
        for row in own {
            let at = i32::from(row.fahrenheit) * 100;
            if temperature <= at {
                let Some(below) = before else {
                    return Some(WHOLE);
                };
                let from = i32::from(below.fahrenheit) * 100;
                let fall = i32::from(below.factor) - i32::from(row.factor);
                let part = (temperature - from) * fall / (at - from).max(1);
                return u16::try_from(i32::from(below.factor) - part).ok();
            }
            before = Some(row);
        }
        match before {
            None => Some(WHOLE),
            Some(_) => None,
        }
    }
}
