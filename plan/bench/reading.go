package bench

var readingMethods []Method
