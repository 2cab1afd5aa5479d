//! A grown table is a table, and answers as the real one.

use springline_core::identify::identify;
use springline_core::image::Image;
use springline_firmware::grown::grow;
use springline_firmware::sweep::Kind;
use springline_tables::IMAGE;

#[test]
fn a_grown_table_answers_as_the_real_one() {
    let mut room = vec![0; 512 * 1024];
    let length = grow(IMAGE, 10, &mut room).expect("room enough");
    let grown = Image::new(&room[..length]).expect("a grown image passes the gate");
    let image = Image::new(IMAGE).expect("the built-in image");
    assert_eq!(grown.row_count(), 10 * image.row_count());
    for mils in (400..=66_000).step_by(997) {
        let query = Kind::SteelTape.query(mils);
        assert_eq!(identify(&grown, &query), identify(&image, &query));
    }
}

#[test]
fn a_buffer_that_is_too_short_is_refused() {
    let mut room = vec![0; IMAGE.len() + 100];
    assert_eq!(grow(IMAGE, 2, &mut room), None);
    assert_eq!(grow(&IMAGE[..64], 2, &mut room), None);
}
