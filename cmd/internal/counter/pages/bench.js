// Loads the workbench anew as soon as a file of the shop says something else.
'use strict'
const read = document.querySelector('meta[name=shop-state]').content
new EventSource('/bench/events').addEventListener('message', event => {
  if (event.data !== read && event.data !== 'unreadable') location.reload()
})
