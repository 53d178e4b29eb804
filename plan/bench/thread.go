package bench

var threadMethods []Method
