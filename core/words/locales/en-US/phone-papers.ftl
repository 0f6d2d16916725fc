### Cars that are expected by the papers of the office.

phone-expected-title = Expected cars
phone-expected-count =
    { $n ->
        [one] Expected: { $n } car
       *[other] Expected: { $n } cars
    }
phone-expected-on = expected { $day }
phone-expected-paper = paper { $number }
phone-expected-differ = Two papers for this car differ
phone-expected-more =
    { $n ->
        [one] { $n } more expected car
       *[other] { $n } more expected cars
    }
phone-expected-less = Fewer
phone-expected-look = The paper names this car. Read the number on the car itself.
phone-expected-same = The car shows { $car }
phone-expected-photo-first = Take the photo of the stencil first, or type the number.
phone-expected-read = Read on the car, as on the paper
phone-expected-other = The car shows another number
phone-expected-is = On the list of expected cars
phone-expected-near = Expected is { $car }: one character different. Look at the car, and type the number again.
phone-expected-not = The paper is for { $car }
phone-paper-check = Hold the paper in hand against each line.
phone-paper-as_in_hand = As on the paper in hand
phone-paper-not_so = Not so, or not all
phone-paper-from = Read by the office from { $file }, line { $line }. Sent by { $by }.
phone-paper-dated = Day of the paper
phone-paper-filled = Filled in from the office's file. Change what the paper in hand says otherwise.
phone-paper-two = The office sent two papers for this car that differ. Fill in what the paper in hand says.
