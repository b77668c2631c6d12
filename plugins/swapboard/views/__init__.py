"""What each page shows: records and cut pictures in, frozen page data out [pure]."""
