//! "Did you mean": the known words most like one that is not known.

/// Up to `most` of the known words that are like `text`, the likeliest first: what continues it, what holds it, what holds all its
/// parts, and then what differs from it by few letters.
pub(crate) fn nearest<'k>(text: &str, known: impl IntoIterator<Item = &'k str>, most: usize) -> Vec<&'k str> {
    // No known word is nearly this long, and comparing letter by letter would take its time.
    if text.len() > 100 {
        return Vec::new();
    }
    let text = text.to_lowercase();
    let mut ranked: Vec<_> = known.into_iter().filter_map(|word| Some((rank(&text, &word.to_lowercase())?, word))).collect();
    ranked.sort_unstable();
    ranked.into_iter().map(|(_, word)| word).take(most).collect()
}

/// How a word is like a text, smaller being more like; none if it is not.
fn rank(text: &str, word: &str) -> Option<(u8, usize)> {
    let unlike = word.chars().count().abs_diff(text.chars().count());
    if text.chars().count() >= 3 {
        if word.starts_with(text) {
            return Some((0, unlike));
        }
        if word.contains(text) || (word.len() >= 4 && text.starts_with(word)) {
            return Some((1, unlike));
        }
        let mut parts = text.split(['-', '_', ' ']).filter(|part| !part.is_empty()).peekable();
        if parts.peek().is_some() && parts.all(|part| word.contains(part)) {
            return Some((2, unlike));
        }
    }
    let allowed = text.chars().count().div_ceil(3);
    let distance = if unlike <= allowed { strsim::osa_distance(text, word) } else { usize::MAX };
    (distance <= allowed).then_some((3, distance))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn continuations_come_before_slips_of_the_pen() {
        let known = ["glucose", "glucose-syrup-de42", "glucose-syrup-de60", "dried-glucose-syrup", "fructose-syrup"];
        assert_eq!(nearest("glucose-syrup", known, 3), ["glucose-syrup-de42", "glucose-syrup-de60", "dried-glucose-syrup"]);
        assert_eq!(nearest("syrup glucose", known, 1), ["glucose-syrup-de42"]);
        assert_eq!(nearest("GLUCOSE", known, 1), ["glucose"]);
    }

    #[test]
    fn few_letters_may_differ_and_no_more() {
        assert_eq!(nearest("thikness", ["thickness", "casts"], 1), ["thickness"]);
        assert_eq!(nearest("emu", ["eu", "us"], 1), ["eu"]);
        assert!(nearest("diameter", ["thickness", "casts"], 1).is_empty());
        assert!(nearest(&"x".repeat(1_000_000), ["thickness"], 1).is_empty());
    }
}
