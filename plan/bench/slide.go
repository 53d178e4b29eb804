package bench

var slideMethods []Method
