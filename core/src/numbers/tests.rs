use super::*;

#[test]
fn codes_are_places() {
    for (code, about) in (0u8..).zip(About::ALL) {
        assert_eq!(about.code(), code);
        assert_eq!(About::from_code(code), Some(about));
    }
    assert_eq!(About::from_code(12), None);
}
